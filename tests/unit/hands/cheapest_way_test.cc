#include "hands/cheapest_way.h"

#include <catch2/catch.hpp>
#include <random>

#include "hands/stretch.h"
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

// The same by trying every way of every note.
std::int64_t cheapest_by_trying(const std::vector<hands::LineNote>& line, const Instrument& instrument,
                                const MotionCosts& judged, std::size_t at, const instruments::Way* before) {
    if (at == line.size()) return 0;
    std::int64_t best = -1;
    for (const instruments::Way& way : instrument.note(line[at].midi)->ways) {
        hands::MotionCounts all = hands::motions_in(way);
        std::int64_t cost = 0;
        for (std::size_t motion = 0; motion < all.size(); ++motion) cost += 2 * all[motion] * judged[motion];
        if (before != nullptr) {
            all = hands::motions_between(instrument, *before, way);
            for (std::size_t motion = 0; motion < all.size(); ++motion) cost += 2 * all[motion] * judged[motion];
        }
        cost += cheapest_by_trying(line, instrument, judged, at + 1, &way);
        if (best < 0 || cost < best) best = cost;
    }
    return best;
}

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
        const MotionCosts judged = costs({{Motion::direction, 5},
                                          {Motion::row, 3},
                                          {Motion::string, 2},
                                          {Motion::reach, 2},
                                          {Motion::register_, 3},
                                          {Motion::fork, 1},
                                          {Motion::half_hole, 4},
                                          {Motion::fingers, 1},
                                          {Motion::grade, 1}});
        for (int round = 0; round < 40; ++round) {
            std::vector<int> midis;
            for (int at = 0; at < 7; ++at)
                midis.push_back(instrument.notes[random() % instrument.notes.size()].written);
            const auto line = quavers(midis);
            const auto found = hands::find_cheapest_way(line, instrument, judged);
            CHECK(found.cost == cheapest_by_trying(line, instrument, judged, 0, nullptr));
            CHECK(found.strokes.size() == midis.size());
            std::int64_t sum = 0;
            for (const hands::Stroke& stroke : found.strokes) sum += stroke.cost;
            CHECK(sum == found.cost);
        }
    }
}

TEST_CASE("a change on a long note costs half of a quick one", "[hands]") {
    const MotionCosts judged = costs({{Motion::direction, 3}});
    // C5 press, D5 draw, and back.
    const auto quick = hands::find_cheapest_way(line_of_notes("cdcd"), on("bc21"), judged);
    CHECK(quick.cost == 3 * 3 * hands::kQuickFactor);
    CHECK(hands::count_of(quick.motions, Motion::direction) == 3);
    CHECK(hands::count_of(quick.quick, Motion::direction) == 3);
    const auto slow = hands::find_cheapest_way(line_of_notes("c2d2c2d2"), on("bc21"), judged);
    CHECK(slow.cost == 3 * 3);
    CHECK(hands::count_of(slow.quick, Motion::direction) == 0);
    const auto rested = hands::find_cheapest_way(line_of_notes("czdz"), on("bc21"), judged);
    CHECK(rested.cost == 3);
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
    CHECK_FALSE(hands::hardest_bar(hands::find_cheapest_way(line_of_notes("DD"), on("bc21"), judged)));
}
