#include "hands/cheapest_way.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <set>

#include "hands/stretch.h"
#include "hands/time_before.h"
#include "instruments/instrument_file.h"
#include "instruments/known.h"
#include "music/note_expression.h"
#include "unit/hands/melodies.h"

using hands_test::line_of_notes;
using hands_test::quavers;
using instruments::Instrument;
using instruments::Motion;
using instruments::MotionCosts;

namespace {

const Instrument& on(std::string_view id) {
    const Instrument* found = instruments::find(id);
    REQUIRE(found != nullptr);
    return *found;
}

int direction_changes(std::string_view id, std::string_view notes) {
    return hands::fewest(Motion::direction, quavers(music::read_notes(notes).midi_numbers()), on(id));
}

MotionCosts costs(std::initializer_list<std::pair<Motion, int>> given) {
    MotionCosts all{};
    for (const auto& [motion, cost] : given) all[static_cast<std::size_t>(motion)] = static_cast<std::uint8_t>(cost);
    return all;
}

// The same by trying every way of every note, with these usual ways; nothing is settled where there are none.
struct Trying {
    const std::vector<hands::LineNote>& line;
    const Instrument& instrument;
    const MotionCosts& judged;
    std::map<int, const instruments::Way*> usual;

    std::int64_t cost_of(const hands::MotionCounts& motions) const {
        std::int64_t cost = 0;
        for (std::size_t at = 0; at < motions.size(); ++at) cost += motions[at] * judged[at];
        return cost;
    }

    std::int64_t from(std::size_t at, const instruments::Way* before) const {
        if (at == line.size()) return 0;
        const auto& ways = instrument.note(line[at].midi)->ways;
        std::int64_t best = -1;
        for (const instruments::Way& way : ways) {
            hands::MotionCounts coming{};
            if (before != nullptr) coming = hands::motions_between(instrument, *before, way);
            if (const auto found = usual.find(line[at].midi); found != usual.end()) {
                const bool is_first = std::none_of(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(at),
                                                   [&](const auto& other) { return other.midi == line[at].midi; });
                if (is_first && found->second != &ways.front()) ++hands::count_of(coming, Motion::second_way);
                if (found->second != &way) ++hands::count_of(coming, Motion::second_way);
            }
            const std::int64_t cost =
                hands::parts_for(line[at].length) * cost_of(hands::motions_in(way)) +
                hands::parts_for(at > 0 ? line[at - 1].length : hands::kAllTheTime) * cost_of(coming) +
                from(at + 1, &way);
            if (best < 0 || cost < best) best = cost;
        }
        return best;
    }

    // Over every choice of usual ways for the pitches that are left.
    std::int64_t over_all(std::vector<int> pitches) {
        if (pitches.empty()) return from(0, nullptr);
        const int midi = pitches.back();
        pitches.pop_back();
        std::int64_t best = -1;
        for (const instruments::Way& way : instrument.note(midi)->ways) {
            usual[midi] = &way;
            const std::int64_t cost = over_all(pitches);
            if (best < 0 || cost < best) best = cost;
        }
        usual.erase(midi);
        return best;
    }
};

}  // namespace

// Facts of the trade, common practice, no source; the layouts of dg23 and anglo30 are from memory.
TEST_CASE("fewest direction changes of the runs that players know", "[hands]") {
    const std::string fourteen = "G:major&D:major A3..B5";
    CHECK(direction_changes("bc21", fourteen) == 4);
    CHECK(direction_changes("bc21", fourteen + " C5") == 6);
    CHECK(direction_changes("bc21", fourteen + " C#4 C#5") == 4);
    CHECK(direction_changes("bc23", fourteen) == 4);

    CHECK(direction_changes("bc21", "D:major D4..D5") == 2);
    CHECK(direction_changes("csd21", "D:major D4..D5") == 4);
    CHECK(direction_changes("dg23", "D:major D4..D5") == 1);
    CHECK(direction_changes("onerow-d", "D:major D4..D5") == 6);
    CHECK(direction_changes("anglo30", "D:major D4..D5") == 2);
    CHECK(direction_changes("bc21", "G:major G4..G5") == 4);
    CHECK(direction_changes("csd21", "G:major G4..G5") == 4);
    CHECK(direction_changes("dg23", "G:major G4..G5") == 2);
    CHECK(direction_changes("anglo30", "G:major G4..G5") == 0);
    CHECK(direction_changes("bc21", "A:dorian A4..A5") == 4);
    CHECK(direction_changes("csd21", "A:dorian A4..A5") == 4);
    CHECK(direction_changes("bc21", "A:major A4..A5") == 2);
    CHECK(direction_changes("anglo30", "A:major A4..A5") == 2);
}

TEST_CASE("the cheapest way is the cheapest of all ways", "[hands]") {
    std::mt19937 random(20261125);  // any seed does
    for (const char* id : {"bc21", "dg23", "anglo30", "fiddle-1", "guitar-dadgad", "whistle-d", "flute-d"}) {
        CAPTURE(id);
        const Instrument& instrument = on(id);
        MotionCosts judged = costs({{Motion::direction, 5},
                                    {Motion::row, 3},
                                    {Motion::string, 2},
                                    {Motion::reach, 2},
                                    {Motion::register_, 3},
                                    {Motion::fork, 1},
                                    {Motion::half_hole, 4},
                                    {Motion::fingers, 1},
                                    {Motion::grade, 1}});
        std::vector<int> several;  // pitches that can be made in several ways
        for (const auto& note : instrument.notes)
            if (note.ways.size() > 1) several.push_back(note.written);
        for (int round = 0; round < 24; ++round) {
            judged[static_cast<std::size_t>(Motion::second_way)] = static_cast<std::uint8_t>(round % 4 * 2);
            // Few pitches, so that they come again.
            std::vector<int> pitches;
            for (int at = 0; at < 2; ++at) pitches.push_back(several[random() % several.size()]);
            pitches.push_back(instrument.notes[random() % instrument.notes.size()].written);
            std::vector<int> midis = pitches;
            while (midis.size() < 6) midis.push_back(pitches[random() % pitches.size()]);
            std::shuffle(midis.begin(), midis.end(), random);
            auto line = quavers(midis);
            for (auto& note : line) note.length = music::Duration(1 + static_cast<int>(random() % 4), 8);
            const auto found = hands::find_cheapest_way(line, instrument, judged);
            Trying trying{line, instrument, judged, {}};
            std::sort(pitches.begin(), pitches.end());
            pitches.erase(std::unique(pitches.begin(), pitches.end()), pitches.end());
            CHECK(found.cost == (round % 4 == 0 ? trying.from(0, nullptr) : trying.over_all(pitches)));
            CHECK(found.lower_bound == found.cost);
            CHECK(found.strokes.size() == midis.size());
            std::int64_t sum = 0;
            for (const hands::Stroke& stroke : found.strokes) sum += stroke.cost;
            CHECK(sum == found.cost);
        }
    }
}

// E4 is pressed in the inner row and drawn in the outer one; D4 is drawn.
TEST_CASE("a note keeps one way through a tune unless leaving it pays", "[hands]") {
    const MotionCosts any = costs({{Motion::direction, 2}, {Motion::row, 1}});
    MotionCosts steady = any;
    steady[static_cast<std::size_t>(Motion::second_way)] = 3;
    const auto ways_of_e = [](const hands::CheapestWay& way) {
        std::set<std::string> ways;
        for (const hands::Stroke& stroke : way.strokes)
            if (stroke.note.midi == 64) ways.insert(stroke.way->fingering);
        return ways;
    };
    const auto line = line_of_notes("GEGEGEGE DDED");
    CHECK(ways_of_e(hands::find_cheapest_way(line, on("bc21"), any)).size() == 2);
    const auto kept = hands::find_cheapest_way(line, on("bc21"), steady);
    CHECK(ways_of_e(kept) == std::set<std::string>{"C row 4 press"});
    CHECK(hands::count_of(kept.motions, Motion::second_way) == 0);
    // Mostly between D: it is taken up drawn, once, and stays so.
    const auto drawn = hands::find_cheapest_way(line_of_notes("DEDEDEDE DEDE"), on("bc21"), steady);
    CHECK(ways_of_e(drawn) == std::set<std::string>{"B row 4 draw"});
    CHECK(hands::count_of(drawn.motions, Motion::second_way) == 1);
    // On an instrument that lets any way do, nothing is counted.
    CHECK(on("bc21").with_any_ways().motion_costs[static_cast<std::size_t>(Motion::second_way)] == 0);
}

TEST_CASE("the less time there is for it the more a change costs", "[hands]") {
    const MotionCosts judged = costs({{Motion::direction, 3}});
    // C5 press, D5 draw, and back.
    const auto cost_of = [&](const char* music) {
        return hands::find_cheapest_way(line_of_notes(music), on("bc21"), judged).cost;
    };
    constexpr int kOne = 3 * hands::kCostParts;
    CHECK(cost_of("cdcd") == 3 * 2 * kOne);
    CHECK(cost_of("c2d2c2d2") == 3 * kOne);
    CHECK(cost_of("c4d4c4") == 2 * kOne / 2);
    CHECK(cost_of("c8d8") == kOne / 2);          // no easier than after a minim
    CHECK(cost_of("c/d/c/d/") == 3 * 2 * kOne);  // no harder than after a quaver
    CHECK(cost_of("c3d") == kOne * 2 / 3);
    CHECK(cost_of("czd") == kOne);  // a rest is time
    CHECK(cost_of("cz3d") == kOne / 2);
    const auto quick = hands::find_cheapest_way(line_of_notes("cdczd"), on("bc21"), judged);
    CHECK(hands::count_of(quick.motions, Motion::direction) == 3);
    CHECK(hands::count_of(quick.quick, Motion::direction) == 2);
}

TEST_CASE("a note the instrument has not is left out, and the hand begins anew", "[hands]") {
    const auto found = hands::find_cheapest_way(line_of_notes("c d' d"), on("bc21"), costs({{Motion::direction, 1}}));
    REQUIRE(found.strokes.size() == 3);
    CHECK(found.missing == 1);
    CHECK(found.strokes[1].way == nullptr);
    CHECK(found.strokes[1].note.midi == 86);
    CHECK(found.cost == 0);
    const auto none = hands::find_cheapest_way(line_of_notes("d'd'"), on("bc21"), costs({{Motion::direction, 1}}));
    CHECK(none.missing == 2);
    CHECK(none.strokes.size() == 2);
    CHECK(hands::find_cheapest_way({}, on("bc21"), {}).strokes.empty());
}

TEST_CASE("ways that cost the same: the usual one", "[hands]") {
    const auto found = hands::find_cheapest_way(line_of_notes("EBe"), on("bc21"), {});
    for (const hands::Stroke& stroke : found.strokes)
        CHECK(stroke.way == &on("bc21").note(stroke.note.midi)->ways.front());
}

// Common practice, no source: what crosses strings, breaks registers, takes three fingers.
TEST_CASE("motions of strings and winds", "[hands]") {
    const auto way = [](std::string_view id, int midi, std::size_t at = 0) -> const instruments::Way& {
        return on(id).note(midi)->ways.at(at);
    };
    const auto between = [&](std::string_view id, const instruments::Way& from, const instruments::Way& to,
                             Motion motion) {
        return hands::count_of(hands::motions_between(on(id), from, to), motion);
    };
    CHECK(between("fiddle-1", way("fiddle-1", 62), way("fiddle-1", 76), Motion::string) == 2);  // D to E string
    CHECK(between("fiddle-1", way("fiddle-1", 62), way("fiddle-1", 64), Motion::string) == 0);
    CHECK(between("whistle-d", way("whistle-d", 73), way("whistle-d", 74), Motion::register_) == 1);
    CHECK(between("whistle-d", way("whistle-d", 73), way("whistle-d", 74), Motion::fingers) == 1);
    CHECK(between("whistle-d", way("whistle-d", 71), way("whistle-d", 69), Motion::fingers) == 0);
    CHECK(between("whistle-d", way("whistle-d", 71), way("whistle-d", 72), Motion::fingers) ==
          1);  // the C cross-fingered
    CHECK(hands::count_of(hands::motions_in(way("whistle-d", 72)), Motion::fork) == 1);
    CHECK(hands::count_of(hands::motions_in(way("whistle-d", 65)), Motion::half_hole) == 1);
    CHECK(hands::fingers_changed("T 123 4 67", "T 123 56") == 3);
    CHECK(hands::fingers_changed("X XXX|XXXX off knee", "X XXX|XXOO") == 2);
    CHECK(hands::fingers_changed("lower thumb key", "T 12") == 0);
}

TEST_CASE("a lever moves when its string is wanted otherwise than it stands", "[hands]") {
    const MotionCosts judged = costs({{Motion::lever, 1}});
    const auto changes = [&](const char* music) {
        return hands::count_of(hands::find_cheapest_way(line_of_notes(music), on("harp-c"), judged).motions,
                               Motion::lever);
    };
    CHECK(changes("FGAF") == 0);
    CHECK(changes("F ^F") == 0);  // F is the E string raised
    CHECK(changes("D ^D") == 1);
    CHECK(changes("D ^D =D") == 2);
    CHECK(changes("^D G ^D") == 0);  // set before the tune begins
    CHECK(changes("D, ^D") == 0);    // two strings
    // On a harp in E flat, D sharp is the D string raised or the E string as it stands: whichever is free.
    const auto flat = [&](const char* music) {
        return hands::count_of(hands::find_cheapest_way(line_of_notes(music), on("harp-eb"), judged).motions,
                               Motion::lever);
    };
    CHECK(flat("D ^D D ^D") == 0);
    CHECK(flat("E _E E _E") == 0);
    CHECK(flat("D E _E D =E") == 2);  // both strings are needed in their other state
}

TEST_CASE("the hardest bar, and stretches in one direction", "[hands]") {
    const MotionCosts judged = costs({{Motion::direction, 1}});
    const auto found = hands::find_cheapest_way(line_of_notes("DDDD DDDD|dcdc dddd|DDDD DDDc|"), on("bc21"), judged);
    const auto bar = hands::hardest_bar(found);
    REQUIRE(bar);
    CHECK(bar->bar == 2);
    CHECK(hands::count_of(bar->motions, Motion::direction) == 4);
    const auto stretches = hands::stretches_of(found, Motion::direction);
    REQUIRE(stretches.size() == 2);
    CHECK(stretches[0] == hands::Stretch{"draw", 9, 1, 2});
    CHECK(stretches[1] == hands::Stretch{"draw", 11, 2, 3});
    // A short bar is hard by what it asks for in a beat, a pick-up by what it asks for in one.
    const auto hardest = [&](const std::string& music) {
        return hands::hardest_bar(hands::find_cheapest_way(line_of_notes(music), on("bc21"), judged))->bar;
    };
    CHECK(hardest("cd|cccc cccc|") == 0);
    CHECK(hardest("dcdc c4|c2 dc [M:2/4]|[M:2/4] dcdc|") == 3);
    CHECK(hardest("DDDd|cddd dcdc|cccc cccc|") == 1);
    CHECK_FALSE(hands::hardest_bar(hands::find_cheapest_way(line_of_notes("DD"), on("bc21"), judged)));
}
