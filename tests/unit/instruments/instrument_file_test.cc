// Instruments of one's own: what a file may say.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "instruments/instrument_file.h"
#include "instruments/known.h"
#include "shed_box.h"

using namespace instruments;
using namespace shed_box;

namespace {

std::vector<std::string> row_names_of(const InstrumentNote& note) {
    std::vector<std::string> names;
    for (const Way& way : note.ways) names.push_back(way.row);
    return names;
}

}  // namespace

TEST_CASE("instrument file: everything a file may say is read", "[instruments]") {
    const Instrument box = read(R"(
title = "Shed box"
family = "one-row"
source = "the box in the shed"
core = "D4..E4"
sounding_offset = 12
caveat = "its lowest button is mended"
cautions = ["Rest often.", "Ask a teacher."]
rows = ["D row", "bass"]
row_signs = { "bass" = "b" }
keys = ["D major", "E dorian"]
way_source = "common practice, no source"
columns = ["grade", "note", "row", "position", "direction", "technique", "fingering", "reason", "source"]
ways = [
    [2, "F#4", "D row", "4", "press", "",       "",           "home", ""],
    [1, "D4",  "D row", 3,   "press", "",       "",           "home", ""],
    [3, "D4",  "",      "",  "none",  "button", "the air in", "",     "ear"],
    [1, "E4",  "D row", 3,   "draw",  "",       "",           "home", ""],
]
[reasons]
home = "middle of the keyboard"
[sources]
ear = "from memory"
)");
    CHECK(box.id == "mine");
    CHECK(box.title == "Shed box");
    CHECK(box.family == "one-row");
    CHECK(box.source == "the box in the shed");
    CHECK(box.core.lowest == 62);
    CHECK(box.core.highest == 64);
    CHECK(box.sounding_offset == 12);
    CHECK(box.caveat == "its lowest button is mended");
    CHECK(box.cautions == std::vector<std::string>{"Rest often.", "Ask a teacher."});
    CHECK(box.rows == std::vector<std::string>{"D row", "bass"});
    CHECK(box.row_signs == std::vector<std::string>{"", "b"});
    REQUIRE(box.keys.size() == 2);
    CHECK(music::to_string(box.keys[0]) == "D major");
    CHECK(music::to_string(box.keys[1]) == "E dorian");
    REQUIRE(box.notes.size() == 3);
    CHECK(box.notes[0].written == 62);
    CHECK(box.notes[0].is_core);
    CHECK(box.notes[0].ways ==
          std::vector<Way>{{"press", "D row", "3", "D row 3 press", Direction::press, 1, "middle of the keyboard",
                            "common practice, no source"},
                           {"button", "", "", "the air in", Direction::none, 3, "", "from memory"}});
    CHECK(box.notes[0].grade() == 1);
    CHECK(box.notes[1].written == 64);
    CHECK(box.notes[1].is_core);
    CHECK(box.notes[2].written == 66);
    CHECK_FALSE(box.notes[2].is_core);
    CHECK(box.grade(66) == 2);
    CHECK(box.grade(65) == 0);
    CHECK(box.note(65) == nullptr);
    CHECK(box.is_bisonoric());
}

TEST_CASE("instrument file: what a file leaves out", "[instruments]") {
    const Instrument box = read(kGood);
    CHECK(box.core.lowest == 62);  // all notes
    CHECK(box.core.highest == 64);
    CHECK(box.notes[0].is_core);
    CHECK(box.rows == std::vector<std::string>{"D row"});  // as the ways name them
    CHECK(box.row_signs == std::vector<std::string>{""});
    CHECK(box.keys.empty());
    CHECK(box.caveat.empty());
    CHECK(box.cautions.empty());
    CHECK(box.sounding_offset == 0);
    CHECK(box.notes[0].ways[0].source == "the box in the shed");
    const Instrument whistle = read(kHead +
                                    "technique = \"holes\"\ngrade = 2\nfingering = \"{technique}: {row} {position}!\"\n"
                                    "columns = [\"note\", \"position\"]\nways = [[\"G4\", \"XXX|OOO\"]]\n");
    CHECK(whistle.notes[0].ways ==
          std::vector<Way>{{"holes", "", "XXX|OOO", "holes: XXX|OOO!", Direction::none, 2, "", "the box in the shed"}});
    CHECK_FALSE(whistle.is_bisonoric());
}

TEST_CASE("instrument file: a file based on another says what differs", "[instruments]") {
    const Instrument& base = *find("bc21");
    const Instrument same = read(based_on("bc21"));
    CHECK(same.title == "Shed box");
    CHECK(same.family == base.family);
    CHECK(same.source == base.source);
    CHECK(same.notes == base.notes);
    CHECK(same.rows == base.rows);
    CHECK(same.row_signs == base.row_signs);
    CHECK(same.keys == base.keys);
    CHECK(same.cautions == base.cautions);

    const Instrument other = read(based_on("bc21") +
                                  "semitones = 2\nrow_names = { \"C row\" = \"B row\", \"B row\" = \"C row\" }\n"
                                  "family = \"two-row\"\nsource = \"my own\"\nkeys = [\"A major\"]\n");
    CHECK(other.rows == std::vector<std::string>{"B row", "C row"});  // exchanged, not merged
    CHECK(other.family == "two-row");
    CHECK(other.source == "my own");
    CHECK(other.core.lowest == base.core.lowest + 2);
    REQUIRE(other.keys.size() == 1);
    CHECK(music::to_string(other.keys[0]) == "A major");
    REQUIRE(other.notes.size() == base.notes.size());
    CHECK(other.notes[5].written == base.notes[5].written + 2);
    CHECK(base.notes[5].ways[0].fingering == "C row 1 draw");
    CHECK(other.notes[5].ways[0].fingering == "B row 1 draw");
    CHECK(other.notes[5].ways[0].row == "B row");
}

TEST_CASE("instrument file: ways of one's own come first and take the place of what they move", "[instruments]") {
    const Instrument box = read(based_on("bc21") + kColumns +
                                "ways = [[\"G3\", \"C row\", 1, \"draw\", 4],"
                                " [\"E4\", \"third row\", 1, \"press\", 2],"
                                " [\"D6\", \"C row\", 11, \"draw\", 5]]\n");
    CHECK(box.note(57) == nullptr);  // A3 was the first draw of the C row, its only place
    REQUIRE(box.note(55) != nullptr);
    CHECK(row_names_of(*box.note(55)) == std::vector<std::string>{"C row", "C row"});
    CHECK(box.note(55)->ways[0].direction == Direction::draw);
    CHECK(row_names_of(*box.note(64)) == std::vector<std::string>{"third row", "C row", "B row"});
    CHECK(box.note(86) != nullptr);  // D6, which the other box has not
    CHECK(box.rows == std::vector<std::string>{"C row", "B row", "third row"});
    CHECK(box.row_signs.size() == 3);
}

TEST_CASE("instrument file: rows keep their signs in another order", "[instruments]") {
    const std::string two = kHead + kColumns +
                            "ways = [[\"D4\", \"one\", 1, \"press\", 1], [\"E4\", \"two\", 1, \"press\", 1]]\n"
                            "row_signs = { \"one\" = \"1\", \"two\" = \"2\" }\n";
    const Instrument base = read(two);
    const auto find_base = [&](std::string_view id) { return id == "base" ? &base : nullptr; };
    const auto rows = [&](const std::string& more) {
        return read_instrument("title = \"t\"\nbased_on = \"base\"\n" + more, "x", "x.toml", find_base);
    };
    const Instrument turned = rows("rows = [\"two\", \"one\"]\n");
    CHECK(turned.rows == std::vector<std::string>{"two", "one"});
    CHECK(turned.row_signs == std::vector<std::string>{"2", "1"});
    const Instrument fewer = rows("rows = [\"two\"]\n");
    CHECK(fewer.rows == std::vector<std::string>{"two", "one"});
    const Instrument exchanged = rows("row_signs = { \"one\" = \"2\", \"two\" = \"1\" }\n");
    CHECK(exchanged.row_signs == std::vector<std::string>{"2", "1"});
}

TEST_CASE("instrument file: what motions of the hand cost", "[instruments]") {
    using instruments::Motion;
    const auto cost = [](const instruments::Instrument& instrument, Motion motion) {
        return int{instrument.motion_costs[static_cast<std::size_t>(motion)]};
    };
    const auto own = shed_box::read(shed_box::kGood + "motions = { direction = 7, half-hole = 0 }\n");
    CHECK(cost(own, Motion::direction) == 7);
    CHECK(cost(own, Motion::row) == 0);
    const auto relative = shed_box::read(shed_box::based_on("bc21") + "motions = { row = 9 }\n");
    CHECK(cost(relative, Motion::row) == 9);
    CHECK(cost(relative, Motion::direction) == cost(*instruments::find("bc21"), Motion::direction));
    for (std::size_t at = 0; at < instruments::kMotions; ++at) {
        const auto motion = static_cast<Motion>(at);
        CHECK(instruments::parse_motion(instruments::motion_token(motion)) == motion);
    }
    CHECK_FALSE(instruments::parse_motion("hop"));
}
