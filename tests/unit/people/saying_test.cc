#include "people/saying.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace people;

namespace {

const std::string kSalt(32, '0');
const Seal kSeal(32, 'a');

NamedTune lamp() { return {tune::TuneId{12}, 0x8000000000000001ULL, "Oil for \"the\" Lämp"}; }
NamedTune net() { return {tune::TuneId{3}, std::nullopt, ""}; }

base::Date day(const char* text) { return base::read_date(text); }

music::NoteSet notes() {
    music::NoteSet set;
    for (const int note : {0, 62, 64, 127}) set.add(note);
    return set;
}

// One of each kind, with all that may stand in it.
std::vector<Words> every_kind() {
    return {TagGiven{lamp(), "Wedding"},
            TagTaken{lamp(), {net()}, "wedding"},
            CountSaid{lamp(), {}, 3},
            CountSaid{lamp(), {net()}, std::nullopt},
            RhythmSaid{lamp(), {}, "hornpipe"},
            RhythmSaid{lamp(), {}, std::nullopt},
            KeySaid{lamp(), {}, music::parse_key("F#m")},
            KeySaid{lamp(), {}, std::nullopt},
            AliasSaid{lamp(), "The \"Old\" One"},
            AliasGone{"old one"},
            ClassSaid{"Mondays", {std::string(32, 'a'), std::string(32, 'b')}},
            ClassGone{"mondays"},
            SameSaid{lamp(), net(), false},
            PlayerAdded{"Ina", "whistle-d", notes()},
            PlayerAdded{"Ó Né", std::nullopt, std::nullopt},
            PlayerChanged{kSeal, "Ina the Younger", std::nullopt},
            PlayerChanged{kSeal, std::nullopt, "bc21"},
            NotesSaid{kSeal, NotesChange::are, std::nullopt},
            NotesSaid{kSeal, NotesChange::more, notes()},
            NotesSaid{kSeal, NotesChange::less, notes()},
            PlayerGone{kSeal},
            Happened{kSeal, lamp(), {net()}, {day("2026-11-30"), tune::PlayerEvent::shaky}, true},
            WishSaid{kSeal, lamp(), {net()}, false},
            ExclusionSaid{kSeal, lamp(), {}, ""},
            ExclusionSaid{kSeal, lamp(), {}, std::nullopt},
            TermSaid{"Thursdays", "thursdays", "{\"a\":\n1}", true},
            TermGone{"thursdays"},
            TakenBack{{kSeal, Seal(32, 'b')}},
            Erased{{kSeal}}};
}

}  // namespace

TEST_CASE("saying: what is written reads back the same, and writes the same again", "[people]") {
    std::size_t kinds = 0;
    for (const Words& words : every_kind()) {
        kinds = std::max(kinds, words.index() + 1);
        for (const Saying& saying :
             {Saying{words, std::nullopt, std::nullopt}, Saying{words, day("2026-01-02"), kSeal}}) {
            const std::string text = write_saying(saying, kSalt);
            CAPTURE(text);
            CHECK(text.find('\n') == std::string::npos);
            CHECK(read_saying(text) == saying);
            CHECK(write_saying(read_saying(text), kSalt) == text);
        }
    }
    CHECK(kinds == std::variant_size_v<Words>);
}

TEST_CASE("saying: the words are as documented", "[people]") {
    const std::string salt = R"("salt":"00000000000000000000000000000000"})";
    CHECK(write_saying({TagGiven{{tune::TuneId{12}, 0x5d1eULL, "Lamp"}, "Wedding"}, day("2026-11-30"), std::nullopt},
                       kSalt) ==
          R"({"said":"tag","day":"2026-11-30","tune":{"id":12,"class":"5d1e","title":"Lamp"},"tag":"Wedding",)" + salt);
    CHECK(write_saying({NotesSaid{kSeal, NotesChange::are, std::nullopt}, std::nullopt, kSeal}, kSalt) ==
          R"({"said":"notes","with":")" + kSeal + R"(","player":")" + kSeal + R"(","notes_are":null,)" + salt);
}

TEST_CASE("saying: each kind has its subject", "[people]") {
    for (const Words& words : every_kind()) CHECK(is_known_kind(kind_of(words)));
    CHECK(subject_of("rhythm") == Subject::marks);
    CHECK(subject_of("same") == Subject::verdicts);
    CHECK(subject_of("event") == Subject::players);
    CHECK(subject_of("term-gone") == Subject::terms);
    CHECK(subject_of("take-back") == Subject::journal);
    CHECK_FALSE(is_known_kind("tags"));
}

TEST_CASE("saying: what is not understood whole is refused", "[people]") {
    const std::string player = R"("player":")" + kSeal + "\"";
    for (const std::string& text : std::vector<std::string>{
             "",
             "12",
             "[]",
             "{",
             "{}",
             R"({"said":"sung"})",
             R"({"said":"tag","tune":{"id":1}})",
             R"({"said":"tag","tune":{"id":"1"},"tag":"x"})",
             R"({"said":"tag","tune":[1],"tag":"x"})",
             R"({"said":"tag","tune":{"id":1.5},"tag":"x"})",
             R"({"said":"tag","tune":{"id":1,"class":"x"},"tag":"x"})",
             R"({"said":"tag","tune":{"id":18446744073709551615},"tag":"x"})",
             R"({"said":"count","tune":{"id":1},"times":-1})",
             R"({"said":"count","tune":{"id":1}})",
             R"({"said":"key","tune":{"id":1},"key":"none"})",
             R"({"said":"player","name":""})",
             R"({"said":"player","name":"Ina","notes":[128]})",
             R"({"said":"player","name":"Ina","notes":[-1]})",
             R"({"said":"player","name":"Ina","notes":"62"})",
             R"({"said":"player-gone","player":"x"})",
             R"({"said":"term-gone","folded":"x","day":"2026-02-30"})",
             R"({"said":"term-gone","folded":"x","with":"y"})",
             R"({"said":"take-back","sayings":["x"]})",
             R"({"said":"take-back","sayings":{}})",
             R"({"said":"notes",)" + player + "}",
             R"({"said":"notes",)" + player + R"(,"notes_more":null})",
             R"({"said":"event",)" + player + R"(,"tune":{"id":1},"event":"sung","on":"2026-01-01"})"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(read_saying(text), SayingFault);
    }
}
