#include "repertoire/learning_load.h"

#include <catch2/catch.hpp>

#include "unit/repertoire/shapes.h"

using repertoire::Learner;
using repertoire::Load;
using repertoire::load_of;
using repertoire::LoadPart;
using repertoire::LoadWeights;
using repertoire::TuneMatter;
using repertoire::weigh;

namespace {

TuneMatter matter(const std::string& head, const std::string& music) {
    const auto tune = repertoire_test::fetched("X:1\nT:The Quay\n" + head + "\nK:D\n" + music + "\n");
    return repertoire::matter_of(tune.record, tune.outline);
}

Learner learner_with(const char* notes) {
    Learner learner;
    learner.have = music::read_notes(notes);
    return learner;
}

}  // namespace

TEST_CASE("matter of a tune: bars, how often each note is struck, range, leaps", "[repertoire]") {
    // D4 up a minor sixth to B4 flat is none; D4 to B4 is a major sixth, 9 semitones.
    const TuneMatter tune = matter("R:reel\nM:4/4\nL:1/8", "D2 B2 A2 F2|D2 d2 A2 F2|]");
    CHECK(tune.folded_title == "quay");
    CHECK(tune.rhythm == "reel");
    CHECK(tune.figures.size() == 2);
    CHECK(tune.struck == std::vector<std::pair<int, int>>{{62, 2}, {66, 2}, {69, 2}, {71, 1}, {74, 1}});
    CHECK(tune.range == 12);
    CHECK(tune.leaps == 2);  // D to B, D to d
}

TEST_CASE("matter of a tune: pace is notes a second at the middle of an easy pace", "[repertoire]") {
    // A reel, 70 minims a minute, 2 to the bar: 8 quavers a bar are 70/2*8/60 = 4.67 notes a second.
    CHECK(matter("R:reel\nM:4/4\nL:1/8", "DEFG ABcd|dcBA GFED|]").pace == 47);
    // A jig, 75 dotted crotchets: 6 quavers a bar are 75/2*6/60 = 3.75, 38 tenths.
    CHECK(matter("R:jig\nM:6/8\nL:1/8", "DEF GAB|cBA GFE|]").pace == 38);
    // A waltz, 105 crotchets: 3 crotchets a bar are 1.75; the pick-up does not count.
    CHECK(matter("R:waltz\nM:3/4\nL:1/8", "AG|F2 G2 A2|B2 A2 G2|]").pace == 18);
    CHECK_FALSE(matter("R:air\nM:4/4\nL:1/8", "DEFG ABcd|]").pace);
}

TEST_CASE("load: what of a tune is new to somebody", "[repertoire]") {
    const TuneMatter tune = matter("R:reel\nM:4/4\nL:1/8", "D2 B2 A2 F2|D2 c2 A2 c2|D2 d2 A2 e2|]");
    Learner ina = learner_with("D4 F#4 A4 B4 D5 E5");
    Load load = load_of(tune, ina);
    CHECK(load.fresh == music::read_notes("C#5"));
    CHECK(load.strikes == 2);
    CHECK(load.different_bars == 3);
    CHECK(load.bars_to_learn == 3);
    CHECK(load.beyond == 2);  // D4 to E5 is 14 semitones
    CHECK(load.leaps == 4);   // D B, D c#, A d is none, D d; c# back to D at the bar line
    CHECK_FALSE(load.hand);
    ina.bars.add(tune.figures);
    ina.widest = 14;
    ina.have = ina.have | load.fresh;
    load = load_of(tune, ina);
    CHECK(load.fresh.empty());
    CHECK(load.strikes == 0);
    CHECK(load.bars_to_learn == 0);
    CHECK(load.beyond == 0);
}

TEST_CASE("load: tunes of one rhythm running, back to the first that is of another", "[repertoire]") {
    const TuneMatter reel = matter("R:reel\nM:4/4\nL:1/8", "D2 E2 F2 G2|]");
    Learner ina = learner_with("D4");
    const auto running = [&](std::vector<std::string> last) {
        ina.last_rhythms = std::move(last);
        return load_of(reel, ina).same_rhythm;
    };
    CHECK(running({}) == 0);
    CHECK(running({"jig", "reel", "reel"}) == 0);
    CHECK(running({"reel", "jig", "reel"}) == 1);
    CHECK(running({"reel", "reel", "reel"}) == 3);
}

TEST_CASE("weighing: every part by its weight, in tenths", "[repertoire]") {
    Load load;
    load.fresh = music::read_notes("C5 C#5");
    load.strikes = 3;
    load.bars_to_learn = 5;
    load.beyond = 2;
    load.leaps = 1;
    load.hand = 31;
    load.pace = 47;
    load.same_rhythm = 2;
    LoadWeights weights;
    weights.of.fill(0);
    CHECK(weigh(load, weights) == 0);
    const std::vector<std::pair<LoadPart, int>> parts{
        {LoadPart::notes, 20}, {LoadPart::strikes, 30}, {LoadPart::bars, 50}, {LoadPart::range, 20},
        {LoadPart::leaps, 10}, {LoadPart::hand, 31},    {LoadPart::pace, 47}, {LoadPart::rhythm, 20}};
    int sum = 0;
    for (const auto& [part, tenths] : parts) {
        LoadWeights one;
        one.of.fill(0);
        one.of[static_cast<std::size_t>(part)] = 3;
        CHECK(weigh(load, one) == 3 * tenths);
        sum += LoadWeights()[part] * tenths;
        CHECK(repertoire::parse_load_part(repertoire::to_string(part)) == part);
    }
    CHECK(weigh(load, LoadWeights()) == sum);
    CHECK_FALSE(repertoire::parse_load_part("charm"));
}
