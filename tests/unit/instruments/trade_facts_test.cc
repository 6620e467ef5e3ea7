// What players know of their instruments. Source of each check, where it names no other: common practice, no source.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "instruments/known.h"
#include "music/pitch.h"

using instruments::Direction;
using instruments::Instrument;
using instruments::Way;

namespace {

const Instrument& known(const std::string& id) {
    const Instrument* found = instruments::find(id);
    INFO(id);
    REQUIRE(found != nullptr);
    return *found;
}

int midi(const std::string& name) {
    const auto pitch = music::parse_pitch(name);
    INFO(name);
    REQUIRE(pitch);
    return pitch->midi();
}

std::set<int> midis(const std::vector<std::string>& names) {
    std::set<int> found;
    for (const std::string& name : names) found.insert(midi(name));
    return found;
}

std::set<int> written(const Instrument& instrument) {
    std::set<int> found;
    for (const auto& note : instrument.notes) found.insert(note.written);
    return found;
}

// The usual way, as `C row 1 draw`.
std::string usual(const Instrument& instrument, const std::string& name) {
    const auto* note = instrument.note(midi(name));
    return note ? note->ways.front().fingering : "none";
}

// The notes of one button: {press, draw}, -1 where it has none.
using Layout = std::map<std::pair<std::string, int>, std::pair<int, int>>;

Layout layout_of(const Instrument& instrument) {
    Layout layout;
    for (const auto& note : instrument.notes)
        for (const Way& way : note.ways) {
            auto& [press, draw] = layout.try_emplace({way.row, std::stoi(way.position)}, -1, -1).first->second;
            int& place = way.direction == Direction::press ? press : draw;
            INFO(way.fingering);
            REQUIRE(place == -1);
            place = note.written;
        }
    return layout;
}

std::set<int> missing(const std::string& id, const std::string& lowest, const std::string& highest) {
    std::set<int> absent;
    for (int note = midi(lowest); note <= midi(highest); ++note)
        if (known(id).note(note) == nullptr) absent.insert(note);
    return absent;
}

struct Place {
    const char* note;
    const char* row;
    int button;  // of 21 keys
    const char* direction;
};

// The fourteen notes of the names that G major and D major share, A3 to B5.
const std::vector<Place> kShared{
    {"A3", "C row", 1, "draw"},  {"B3", "C row", 2, "draw"},   {"D4", "C row", 3, "draw"},
    {"E4", "C row", 4, "press"}, {"F#4", "B row", 5, "press"}, {"G4", "C row", 5, "press"},
    {"A4", "C row", 5, "draw"},  {"B4", "C row", 6, "draw"},   {"D5", "C row", 7, "draw"},
    {"E5", "C row", 7, "press"}, {"F#5", "B row", 8, "press"}, {"G5", "C row", 8, "press"},
    {"A5", "C row", 9, "draw"},  {"B5", "C row", 10, "draw"},
};

}  // namespace

TEST_CASE("trade facts: B/C box, where the commonest notes lie", "[instruments]") {
    for (const Place& place : kShared) {
        const std::string row = std::string(place.row) + " ";
        CHECK(usual(known("bc21"), place.note) == row + std::to_string(place.button) + " " + place.direction);
        CHECK(usual(known("bc23"), place.note) == row + std::to_string(place.button + 1) + " " + place.direction);
    }
}

TEST_CASE("trade facts: B/C box, 23 keys are 21 with every number one higher and a button below", "[instruments]") {
    Layout with_21 = layout_of(known("bc21"));
    Layout with_23 = layout_of(known("bc23"));
    CHECK(with_21.size() == 21);
    CHECK(with_23.size() == 23);
    Layout shifted;
    for (const auto& [place, notes] : with_21) shifted[{place.first, place.second + 1}] = notes;
    with_23.erase({"C row", 1});
    with_23.erase({"B row", 1});
    CHECK(with_23 == shifted);
}

TEST_CASE("trade facts: B/C box, C naturals are pressed and C sharps drawn", "[instruments]") {
    const Instrument& box = known("bc21");
    for (const char* name : {"C4", "C5", "C6"}) {
        INFO(name);
        const auto& ways = box.note(midi(name))->ways;
        CHECK(ways.size() == 1);
        CHECK(ways.front().direction == Direction::press);
        CHECK(ways.front().row == "C row");
    }
    for (const char* name : {"C#4", "C#5", "C#6"}) {
        INFO(name);
        const auto& ways = box.note(midi(name))->ways;
        CHECK(ways.size() == 1);
        CHECK(ways.front().direction == Direction::draw);
        CHECK(ways.front().row == "B row");
    }
    const Layout layout = layout_of(box);
    CHECK(layout.at({"C row", 6}) == std::pair(midi("C5"), midi("B4")));
    CHECK(layout.at({"C row", 5}) == std::pair(midi("G4"), midi("A4")));
    CHECK(layout.at({"C row", 7}) == std::pair(midi("E5"), midi("D5")));
    CHECK(box.note(midi("D6")) == nullptr);
    CHECK(known("bc23").note(midi("D6")) == nullptr);
}

TEST_CASE("trade facts: B/C box, five notes sound in both directions", "[instruments]") {
    std::set<int> both;
    for (const auto& note : known("bc21").notes) {
        std::set<Direction> directions;
        for (const Way& way : note.ways) directions.insert(way.direction);
        CHECK(directions.count(Direction::none) == 0);
        if (directions.size() == 2) both.insert(note.written);
    }
    CHECK(both == midis({"B3", "E4", "B4", "E5", "B5"}));
}

TEST_CASE("trade facts: a C#/D box is a B/C box a whole tone higher", "[instruments]") {
    Layout raised;
    for (const auto& [place, notes] : layout_of(known("bc21")))
        raised[{place.first == "C row" ? "D row" : "C# row", place.second}] = {notes.first + 2, notes.second + 2};
    CHECK(layout_of(known("csd21")) == raised);
}

// A row plays the common chord of its key on the press and the other notes on the draw.
TEST_CASE("trade facts: boxes by rows play the chord of the row on the press", "[instruments]") {
    struct Row {
        const char* id;
        const char* row;
        int tonic;
        int first_button;  // from here on; below it makers differ
    };
    for (const Row& row : {Row{"bc21", "C row", 0, 1}, Row{"bc21", "B row", 11, 1}, Row{"csd21", "D row", 2, 1},
                           Row{"dg23", "D row", 2, 2}, Row{"dg23", "G row", 7, 2}, Row{"onerow-d", "D row", 2, 1},
                           Row{"anglo30", "L C", 0, 1}, Row{"anglo30", "R C", 0, 1}, Row{"anglo30", "L G", 7, 1}}) {
        std::size_t buttons = 0;
        for (const auto& [place, notes] : layout_of(known(row.id))) {
            if (place.first != row.row || place.second < row.first_button) continue;
            INFO(row.id << " " << row.row << " " << place.second);
            ++buttons;
            const int degree = (notes.first - row.tonic + 120) % 12;
            CHECK((degree == 0 || degree == 4 || degree == 7));
            CHECK(notes.second != -1);
        }
        CHECK(buttons >= 5);
    }
}

TEST_CASE("trade facts: which notes between D4 and B5 an instrument has not", "[instruments]") {
    for (const char* id : {"bc21", "bc23", "csd21", "anglo30", "english48", "whistle-d", "low-whistle-d", "flute-d",
                           "fiddle-1", "mandolin-1", "tenor-banjo-1", "harp-c", "harp-eb"}) {
        INFO(id);
        CHECK(missing(id, "D4", "B5").empty());
    }
    CHECK(missing("dg23", "D4", "B5") == midis({"D#5", "F5", "G#5", "A#5"}));
    CHECK(missing("onerow-d", "D4", "B5") == midis({"D#4", "F4", "G#4", "A#4", "C5", "D#5", "F5", "G#5", "A#5"}));
    CHECK(missing("northumbrian-7", "D4", "B5") == midis({"D#4", "F4", "G#4", "A#4", "F5", "G#5", "A#5"}));
    CHECK(missing("harmonica-d", "D4", "B5") == midis({"F4", "G#4", "C5", "D#5", "A#5"}));  // bends are notes
}

// ABC standard 2.1, section 3.1.14: pipe music is noted with C and F sharp and G natural. The nine notes, low G to high
// A: common practice, no source.
TEST_CASE("trade facts: Highland pipes have nine notes, as written", "[instruments]") {
    CHECK(written(known("highland-pipes")) == midis({"G4", "A4", "B4", "C#5", "D5", "E5", "F#5", "G5", "A5"}));
}

// Standard tuning, semitones above the lowest note, holes 1 to 10. Source: common practice, no source; written from
// memory of the layout that OEIS A291810 lists.
TEST_CASE("trade facts: a harmonica of ten holes, blown and drawn", "[instruments]") {
    const std::vector<int> blown{0, 4, 7, 12, 16, 19, 24, 28, 31, 36};
    const std::vector<int> drawn{2, 7, 11, 14, 17, 21, 23, 26, 29, 33};
    const std::map<std::string, const char*> lowest{
        {"harmonica-d", "D3"}, {"harmonica-g", "G2"}, {"harmonica-a", "A2"}};
    for (const auto& [id, name] : lowest) {
        const int tonic = midi(name);
        std::map<int, int> blow;
        std::map<int, int> draw;
        for (const auto& note : known(id).notes)
            for (const Way& way : note.ways) {
                INFO(id << " " << way.fingering);
                CHECK(way.row == "hole " + way.position);
                if (way.technique == "blow") blow[std::stoi(way.position)] = note.written - tonic;
                if (way.technique == "draw") draw[std::stoi(way.position)] = note.written - tonic;
            }
        REQUIRE(blow.size() == 10);
        REQUIRE(draw.size() == 10);
        for (int hole = 1; hole <= 10; ++hole) {
            INFO(id << " hole " << hole);
            CHECK(blow[hole] == blown[static_cast<std::size_t>(hole - 1)]);
            CHECK(draw[hole] == drawn[static_cast<std::size_t>(hole - 1)]);
        }
        // A bent note lies between the two of its hole, below the higher by as many semitones as its fingering says.
        for (const auto& note : known(id).notes)
            for (const Way& way : note.ways) {
                if (!way.technique.ends_with("bend")) continue;
                INFO(id << " " << way.fingering);
                const int hole = std::stoi(way.position);
                const int higher = std::max(blow[hole], draw[hole]);
                const int lower = std::min(blow[hole], draw[hole]);
                CHECK(note.written - tonic == higher - (way.fingering.back() - '0'));
                CHECK(note.written - tonic > lower);
                CHECK((way.technique == "draw bend") == (draw[hole] > blow[hole]));
            }
    }
}

TEST_CASE("trade facts: a flute without keys half-holes and cross-fingers, one with keys need not", "[instruments]") {
    for (const auto& note : known("flute-d").notes)
        for (const Way& way : note.ways) {
            INFO(way.fingering);
            CHECK(way.technique.find("key") == std::string::npos);
            CHECK(way.fingering.find("key") == std::string::npos);
        }
    CHECK(usual(known("flute-d"), "F4") == "XXX|XhO");
    CHECK(usual(known("flute-d"), "G#4") == "XXh|OOO");
    CHECK(usual(known("flute-d"), "A#4") == "XOX|XXX");
    CHECK(usual(known("flute-d"), "C5") == "OXX|OOO");
    CHECK(written(known("flute-d")) == written(known("flute-d-keyed")));
    CHECK(usual(known("flute-d-keyed"), "F4") == "XXX|XXO F key");
    CHECK(usual(known("flute-d-keyed"), "C5") == "OXX|OOO");  // most players leave that key alone
    // What a key makes is a semitone above its fingers.
    for (const auto& note : known("flute-d-keyed").notes)
        for (const Way& way : note.ways) {
            if (way.technique.find("key") == std::string::npos) continue;
            INFO(way.fingering);
            const auto* below = known("flute-d").note(note.written - 1);
            REQUIRE(below != nullptr);
            const bool is_below = std::any_of(below->ways.begin(), below->ways.end(), [&](const Way& other) {
                return way.fingering.starts_with(other.fingering + " ");
            });
            CHECK(is_below);
        }
}

TEST_CASE("trade facts: a whistle in another key has the same fingers, moved", "[instruments]") {
    const std::vector<std::pair<std::string, const char*>> six_fingers{
        {"whistle-d", "D4"},     {"whistle-eb", "Eb4"},   {"whistle-f", "F4"},    {"whistle-g", "G4"},
        {"whistle-c", "C4"},     {"whistle-bb", "Bb3"},   {"whistle-a", "A3"},    {"low-whistle-d", "D4"},
        {"low-whistle-f", "F4"}, {"low-whistle-g", "G4"}, {"low-whistle-c", "C4"}};
    for (const auto& [id, lowest] : six_fingers) {
        INFO(id);
        const Instrument& whistle = known(id);
        const std::string base = id.starts_with("low-") ? "low-whistle-d" : "whistle-d";
        CHECK(whistle.notes.front().written == midi(lowest));
        CHECK(whistle.notes.front().ways.front().fingering == "XXX|XXX");
        CHECK(whistle.sounding_offset == (id.starts_with("low-") ? 0 : 12));
        REQUIRE(whistle.notes.size() == known(base).notes.size());
        for (std::size_t at = 0; at < whistle.notes.size(); ++at)
            CHECK(whistle.notes[at].ways == known(base).notes[at].ways);
    }
    // Six fingers, then one fewer each time, give the scale of the whistle's own key.
    const std::vector<std::pair<const char*, const char*>> scale{
        {"D4", "XXX|XXX"}, {"E4", "XXX|XXO"}, {"F#4", "XXX|XOO"}, {"G4", "XXX|OOO"},
        {"A4", "XXO|OOO"}, {"B4", "XOO|OOO"}, {"C#5", "OOO|OOO"}};
    for (const auto& [name, fingers] : scale) CHECK(usual(known("whistle-d"), name) == fingers);
}

// Strings are tuned as the players say, and a fret or a finger's place is so many semitones above the open string.
TEST_CASE("trade facts: a fret is a semitone", "[instruments]") {
    const std::map<std::string, std::map<std::string, const char*>> tunings{
        {"mandolin-1", {{"G", "G3"}, {"D", "D4"}, {"A", "A4"}, {"E", "E5"}}},
        {"tenor-banjo-1", {{"G", "G3"}, {"D", "D4"}, {"A", "A4"}, {"E", "E5"}}},
        {"guitar-dadgad",
         {{"6th (D)", "D3"},
          {"5th (A)", "A3"},
          {"4th (D)", "D4"},
          {"3rd (G)", "G4"},
          {"2nd (A)", "A4"},
          {"1st (D)", "D5"}}},
        {"banjo5-gdgbd", {{"5th", "G5"}, {"4th (D)", "D4"}, {"3rd (G)", "G4"}, {"2nd (B)", "B4"}, {"1st (D)", "D5"}}},
    };
    for (const auto& [id, open] : tunings)
        for (const auto& note : known(id).notes)
            for (const Way& way : note.ways) {
                INFO(id << " " << way.fingering);
                CHECK(note.written == midi(open.at(way.row)) + std::stoi(way.position));
            }
}

// A lever raises its string a semitone. With all levers down the one harp plays E flat major, the other C major.
TEST_CASE("trade facts: a lever raises its string a semitone", "[instruments]") {
    for (const char* id : {"harp-eb", "harp-c"}) {
        std::map<std::string, std::pair<int, int>> strings;  // down, up
        for (const auto& note : known(id).notes)
            for (const Way& way : note.ways)
                (way.position == "down" ? strings[way.row].first : strings[way.row].second) = note.written;
        CHECK(strings.size() == 34);
        for (const auto& [name, notes] : strings) {
            INFO(id << " " << name);
            const bool is_flat = std::string(id) == "harp-eb" && std::string("EAB").find(name[0]) != std::string::npos;
            CHECK(notes.first == midi(name) - (is_flat ? 1 : 0));
            CHECK(notes.second == notes.first + 1);
        }
    }
}

TEST_CASE("trade facts: every way says how, how hard and by what source", "[instruments]") {
    for (const std::string& id : instruments::ids()) {
        const Instrument& instrument = known(id);
        CHECK(!instrument.notes.empty());
        for (std::size_t at = 0; at < instrument.notes.size(); ++at) {
            const auto& note = instrument.notes[at];
            INFO(id << " " << note.written);
            CHECK((at == 0 || instrument.notes[at - 1].written < note.written));
            CHECK(!note.ways.empty());
            CHECK(note.is_core == (note.written >= instrument.core.lowest && note.written <= instrument.core.highest));
            for (const Way& way : note.ways) {
                CHECK(!way.technique.empty());
                CHECK(!way.fingering.empty());
                CHECK(!way.reason.empty());
                CHECK(!way.source.empty());
                CHECK((way.grade >= instruments::kEasiestGrade && way.grade <= instruments::kHardestGrade));
            }
        }
    }
}

TEST_CASE("trade facts: a row has a sign of its own, and an inner row is no outer row", "[instruments]") {
    for (const std::string& id : instruments::ids()) {
        INFO(id);
        const Instrument& instrument = known(id);
        REQUIRE(instrument.row_signs.size() == instrument.rows.size());
        std::set<std::string> signs;
        for (const std::string& sign : instrument.row_signs)
            if (!sign.empty()) {
                CHECK(signs.insert(sign).second);
                CHECK(sign.size() <= 2);
            }
        CHECK((signs.empty() || signs.size() == instrument.rows.size()));
    }
    const std::vector<std::string> inner_outer{"i", "o"};
    for (const auto& [id, inner] : {std::pair("bc21", "C row"), std::pair("bc23", "C row"), std::pair("csd21", "D row"),
                                    std::pair("dg23", "G row")}) {
        INFO(id);
        CHECK(known(id).rows.front() == inner);
        CHECK(known(id).row_signs == inner_outer);
    }
    CHECK(known("anglo30").row_signs == std::vector<std::string>{"La", "Lc", "Lg", "Ra", "Rc", "Rg"});
    CHECK(known("anglo30-gd").row_signs == std::vector<std::string>{"La", "Lg", "Ld", "Ra", "Rg", "Rd"});
    CHECK(known("english48").row_signs == std::vector<std::string>{"Lo", "Li", "Ri", "Ro"});
    // A five-string banjo in G is written gDGBd.
    CHECK(known("banjo5-gdgbd").row_signs == std::vector<std::string>{"d", "B", "G", "D", "g"});
}

TEST_CASE("trade facts: an instrument has every note name of its customary keys", "[instruments]") {
    std::size_t keys = 0;
    for (const std::string& id : instruments::ids()) {
        const Instrument& instrument = known(id);
        std::set<int> classes;
        for (const auto& note : instrument.notes)
            if (note.is_core) classes.insert(note.written % 12);
        for (const music::Key& key : instrument.keys) {
            ++keys;
            INFO(id << " " << music::to_string(key));
            const auto tonic = music::parse_pitch(music::to_string(key.tonic) + "4");
            REQUIRE(tonic);
            for (const int step : music::mode_semitones(key.mode))
                CHECK(classes.count((tonic->midi() + step) % 12) == 1);
        }
    }
    CHECK(keys > 100);
    CHECK(known("voice-high").keys.empty());
    CHECK(music::to_string(known("whistle-c").keys.front()) == "C major");  // as D major on the whistle in D
    CHECK(music::to_string(known("onerow-g").keys.front()) == "G major");
}

TEST_CASE("trade facts: every instrument has cautions that end with a teacher or doctor", "[instruments]") {
    for (const std::string& id : instruments::ids()) {
        INFO(id);
        const Instrument& instrument = known(id);
        REQUIRE(instrument.cautions.size() >= 2);
        CHECK_THAT(instrument.cautions.back(), Catch::Contains("teacher") && Catch::Contains("doctor"));
        for (const std::string& caution : instrument.cautions) CHECK(caution.size() <= 100);
        const std::string& family = instrument.family;
        if (family != "six-hole wind" && family != "pipes" && family != "duct flute with thumb hole") continue;
        bool tells_of_hearing = false;
        for (const std::string& caution : instrument.cautions)
            if (caution.find(" ear") != std::string::npos) tells_of_hearing = true;
        CHECK(tells_of_hearing);
    }
}
