#include "people/fold.h"

#include <catch2/catch.hpp>

using namespace people;

namespace {

NamedTune tune_of(std::int64_t id) { return {tune::TuneId{id}, std::nullopt, ""}; }
base::Date day_said(const char* text) { return base::read_date(text); }
Seal seal(std::size_t rank) {
    std::string text(32, '0');
    for (std::size_t at = 31; rank > 0; --at, rank /= 10) text[at] = static_cast<char>('0' + rank % 10);
    return text;
}

// Said one after the other; the seal of the n-th is seal(n).
Kept kept_of(const std::vector<Words>& said, bool is_from_elsewhere = false) {
    std::vector<Entry> entries;
    for (const Words& words : said) {
        const std::size_t rank = entries.size() + 1;
        entries.push_back({static_cast<std::int64_t>(100 + rank),
                           static_cast<std::int64_t>(rank),
                           seal(rank),
                           is_from_elsewhere,
                           {words, std::nullopt, std::nullopt}});
    }
    return fold(entries,
                [](const NamedTune& named) { return named.title == "here" ? tune::TuneId{77} : tune::TuneId{}; });
}

tune::DatedEvent on(const char* text, tune::PlayerEvent event) { return {day_said(text), event}; }

}  // namespace

TEST_CASE("fold: nothing said, nothing kept", "[people]") { CHECK(kept_of({}) == Kept{}); }

TEST_CASE("fold: a tag is shown as first written, and gone with its last tune", "[people]") {
    CHECK(kept_of({TagGiven{tune_of(1), "Café"}, TagGiven{tune_of(2), "cafe"}}).tags ==
          std::map<std::string, std::string>{{"cafe", "Café"}});
    const Kept kept = kept_of({TagGiven{tune_of(1), "Café"}, TagGiven{tune_of(2), "cafe"},
                               TagTaken{tune_of(1), {tune_of(2)}, "cafe"}, TagGiven{tune_of(3), "CAFE"}});
    CHECK(kept.tags.at("cafe") == "CAFE");
    CHECK(kept.tunes_tagged == std::set<std::pair<TuneNumber, std::string>>{{3, "cafe"}});
}

TEST_CASE("fold: the last word holds, for all the tunes it was said of", "[people]") {
    const Kept kept =
        kept_of({CountSaid{tune_of(1), {}, 3}, CountSaid{tune_of(2), {}, 4}, CountSaid{tune_of(3), {tune_of(1)}, 5},
                 RhythmSaid{tune_of(1), {}, "reel"}, RhythmSaid{tune_of(1), {}, std::nullopt},
                 KeySaid{tune_of(1), {}, music::parse_key("Em")}, SameSaid{tune_of(2), tune_of(1), true},
                 SameSaid{tune_of(1), tune_of(2), false}});
    CHECK(kept.counts == std::map<TuneNumber, std::int64_t>{{2, 4}, {3, 5}});
    CHECK(kept.rhythms.empty());
    CHECK(kept.keys.at(1).said == 6);
    CHECK(kept.verdicts.at({1, 2}) == KeptVerdict{false, 8});
}

TEST_CASE("fold: what is written for a tune means the one it was said of last", "[people]") {
    const std::vector<Words> said{AliasSaid{tune_of(1), "The Old One"}, AliasSaid{tune_of(2), "old one!"},
                                  AliasSaid{tune_of(1), "fs"}, AliasSaid{tune_of(3), "..."}};
    CHECK(kept_of(said).aliases == std::map<std::string, KeptAlias>{{"old one", {"old one!", 2}}, {"fs", {"fs", 1}}});
    std::vector<Words> less = said;
    less.emplace_back(AliasGone{"old one"});
    less.emplace_back(TakenBack{{seal(3)}});
    CHECK(kept_of(less).aliases.empty());
    const NamedTune there{tune::TuneId{5}, std::nullopt, "here"};
    CHECK(kept_of({AliasSaid{there, "x y"}, AliasSaid{tune_of(5), "z"}}, true).aliases ==
          std::map<std::string, KeptAlias>{{"x y", {"x y", 77}}});
}

TEST_CASE("fold: what is taken back was never said, and may be given again", "[people]") {
    std::vector<Words> said{CountSaid{tune_of(1), {}, 3}, CountSaid{tune_of(1), {}, 4}, TakenBack{{seal(2)}}};
    CHECK(kept_of(said).counts.at(1) == 3);
    said.push_back(TakenBack{{seal(3)}});
    CHECK(kept_of(said).counts.at(1) == 4);
}

TEST_CASE("fold: a player by every name", "[people]") {
    const Kept kept = kept_of({PlayerAdded{"Ina", std::nullopt, std::nullopt}, PlayerChanged{seal(1), "Una", "bc21"},
                               Happened{seal(1), tune_of(5), {}, on("2026-01-02", tune::PlayerEvent::known), false}});
    REQUIRE(kept.players.size() == 1);
    CHECK(kept.players.at(101).name == "Una");
    CHECK(kept.players.at(101).instrument == "bc21");
    CHECK(kept.events.at(3).player == 101);
}

TEST_CASE("fold: one name added twice is one player; another's name is not taken", "[people]") {
    const Kept kept = kept_of({PlayerAdded{"Ina", std::nullopt, std::nullopt}, PlayerAdded{"ína", "bc21", std::nullopt},
                               WishSaid{seal(2), tune_of(5), {}, true}, PlayerAdded{"Ned", std::nullopt, std::nullopt},
                               PlayerChanged{seal(4), "INA", std::nullopt}});
    CHECK(kept.players.size() == 2);
    CHECK(kept.players.at(101).name == "Ina");
    CHECK(kept.players.at(101).instrument == "bc21");
    CHECK(kept.wishes.contains({101, 5}));
    CHECK(kept.players.at(104).name == "Ned");
}

TEST_CASE("fold: with a player goes all that was said", "[people]") {
    const Kept kept = kept_of({PlayerAdded{"Ina", std::nullopt, std::nullopt}, WishSaid{seal(1), tune_of(5), {}, true},
                               ExclusionSaid{seal(1), tune_of(6), {}, "too high"},
                               Happened{seal(1), tune_of(5), {}, on("2026-01-02", tune::PlayerEvent::known), false},
                               PlayerGone{seal(1)}, WishSaid{seal(1), tune_of(7), {}, true}});
    CHECK(kept == Kept{});
}

TEST_CASE("fold: what comes first in its day_said goes before all of the family", "[people]") {
    using tune::PlayerEvent;
    const Kept kept =
        kept_of({PlayerAdded{"Ina", std::nullopt, std::nullopt},
                 Happened{seal(1), tune_of(5), {}, on("2026-01-02", PlayerEvent::played), false},
                 Happened{seal(1), tune_of(6), {tune_of(5)}, on("2026-01-02", PlayerEvent::known), true},
                 Happened{seal(1), tune_of(5), {tune_of(6)}, on("2026-01-02", PlayerEvent::shaky), true}});
    CHECK_FALSE(kept.events.at(2).place);
    CHECK(kept.events.at(3).place == 1);
    CHECK(kept.events.at(4).place == 0);
}

TEST_CASE("fold: a term goes back one step", "[people]") {
    std::vector<Words> said{TermSaid{"Mon", "mon", "one", false}, TermSaid{"Mon", "mon", "two", false}};
    CHECK(kept_of(said).terms.at("mon") == KeptTerm{"Mon", "two", "one"});
    said.push_back(TakenBack{{seal(2)}});
    said.push_back(TermSaid{"Mon", "mon", "one again", true});
    CHECK(kept_of(said).terms.at("mon") == KeptTerm{"Mon", "one again", std::nullopt});
    said.push_back(TermGone{"mon"});
    CHECK(kept_of(said).terms.empty());
}

TEST_CASE("fold: a tune named elsewhere is the one it is here, or none", "[people]") {
    NamedTune here = tune_of(1);
    here.title = "here";
    CHECK(kept_of({CountSaid{here, {}, 3}, CountSaid{tune_of(2), {}, 4}}, true).counts ==
          std::map<TuneNumber, std::int64_t>{{77, 3}});
}

TEST_CASE("fold: a class is the players it was said of last, without those who are gone", "[people]") {
    const std::vector<Words> said{PlayerAdded{"Ina", {}, {}},
                                  PlayerAdded{"Uli", {}, {}},
                                  ClassSaid{"Mondays", {seal(1), seal(2), seal(1)}},
                                  ClassSaid{"Duo", {seal(1)}},
                                  ClassSaid{"mondays!", {seal(2)}},
                                  ClassSaid{"Nobody", {seal(9)}}};
    const auto folded = [](const char* name) { return tune::fold_player_name(name); };
    CHECK(kept_of(said).classes == std::map<std::string, KeptClass>{{folded("Duo"), {"Duo", {101}}},
                                                                    {folded("Mondays"), {"Mondays", {101, 102}}},
                                                                    {folded("mondays!"), {"mondays!", {102}}}});
    std::vector<Words> changed{said.begin(), said.begin() + 4};
    changed.emplace_back(ClassSaid{"MONDAYS", {seal(2)}});
    CHECK(kept_of(changed).classes.at(folded("mondays")) == KeptClass{"MONDAYS", {102}});
    changed.emplace_back(TakenBack{{seal(5)}});
    CHECK(kept_of(changed).classes.at(folded("mondays")) == KeptClass{"Mondays", {101, 102}});
    changed.emplace_back(PlayerGone{seal(1)});
    CHECK(kept_of(changed).classes == std::map<std::string, KeptClass>{{folded("Mondays"), {"Mondays", {102}}}});
    changed.emplace_back(ClassGone{folded("Mondays")});
    CHECK(kept_of(changed).classes.empty());
}
