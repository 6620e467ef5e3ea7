#include "people/name_said.h"

#include <catch2/catch.hpp>

using people::says_name;

TEST_CASE("name_said: a word that begins with the name says it", "[people]") {
    const tune::PlayerName ina = tune::read_player_name("Ina");
    for (const char* text :
         {"Ina", "ína", "Inas waltz", "for Ina", "Ina's", "(ina)", "with Uli,Ina", "trina for INA"}) {
        CAPTURE(text);
        CHECK(says_name(text, ina));
    }
    for (const char* text : {"", "final", "Trina", "In a", "\xC3\xA6ina", "7ina"}) {
        CAPTURE(text);
        CHECK_FALSE(says_name(text, ina));
    }
    CHECK(says_name("wishes of una maria", tune::read_player_name("Una-Maria")));
}

TEST_CASE("name_said: of tags, kinds, reasons, terms and classes, and of nothing else", "[people]") {
    const people::NamedTune tune{tune::TuneId{1}, std::nullopt, "Ina's Fancy"};
    const std::vector<people::Words> words{
        people::TagGiven{tune, "Ina's"},
        people::TagGiven{tune, "wedding"},
        people::TagTaken{tune, {}, "ina's"},
        people::CountSaid{tune, {}, 3},
        people::RhythmSaid{tune, {}, "ina-step"},
        people::RhythmSaid{tune, {}, std::nullopt},
        people::PlayerAdded{"Ina", std::nullopt, std::nullopt},
        people::WishSaid{"s", tune, {}, true},
        people::ExclusionSaid{"s", tune, {}, "too fast for Ina"},
        people::ExclusionSaid{"s", tune, {}, std::nullopt},
        people::TermSaid{"Ina on Fridays", "ina on fridays", "text", false},
        people::TermSaid{"Fridays", "fridays", "for Ina", false},
        people::TermGone{"ina on fridays"},
        people::ClassSaid{"Ina's friends", {}},
        people::ClassSaid{"Mondays", {}},
        people::ClassGone{"ina's friends"},
    };
    std::vector<people::Entry> entries;
    for (const people::Words& said : words) {
        people::Entry entry;
        entry.saying.words = said;
        entries.push_back(entry);
    }
    std::vector<std::size_t> found;
    for (const people::Entry* entry : people::entries_saying(entries, tune::read_player_name("Ina")))
        found.push_back(static_cast<std::size_t>(entry - entries.data()));
    CHECK(found == std::vector<std::size_t>{0, 2, 4, 8, 10, 12, 13, 15});
}
