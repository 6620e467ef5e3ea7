// A tune in twos is looked at by quarters of its bar (crotchets in 4/4, quavers in 2/4), one in threes by its dotted
// beats. "Fitted" below: on the tunes of O'Neill's Music of Ireland (1903), Aird's Airs, books 1 and 2 (1782), and two
// thirds of Ryan's Mammoth Collection (1883), whose kind an ABC edition states; tests/rhythms/README.md has the
// figures, also of what was kept apart. Tested by rhythm_pattern_test.cc.
#include "analysis/rhythm_pattern.h"

#include <unordered_set>
#include <utility>

#include "analysis/note_uses.h"
#include "analysis/rhythm_beats.h"
#include "analysis/rhythm_words.h"
#include "analysis/structure.h"

namespace analysis {

namespace {

using music::Duration;
using music::Meter;
using Kinds = std::vector<std::string>;

// --- beats of three

// Fitted: jigs have three notes in 79 of 100 beats (O'Neill's) and 82 (Ryan's), quicksteps and marches (Aird's) in 54
// and 60. Of 412 jigs of the three books 8 have twice as many beats of crotchet and quaver as of three notes; none of
// the books calls any single.
InferredRhythm infer_six(const Beats& beats) {
    if (2 * beats.threes < beats.two_thirds_first) return {"single jig", {"jig", "slide", "march", "air"}};
    Kinds also;
    if (3 * beats.two_thirds_first >= beats.all) also = {"single jig", "slide"};
    if (10 * beats.threes < 7 * beats.all) also.emplace_back("march");
    if (2 * beats.threes < beats.all || 6 * beats.dotted_threes >= beats.all) also.emplace_back("air");
    return {"jig", std::move(also)};
}

// The older name covers both. Fitted: 7 of 109 slip jigs of the three books are hop jigs by this rule; none is called
// so.
InferredRhythm infer_nine(const Beats& beats) {
    if (3 * beats.two_thirds_first > 2 * beats.all) return {"hop jig", {"slip jig"}};
    if (3 * beats.two_thirds_first > beats.all) return {"slip jig", {"hop jig"}};
    return {"slip jig", {}};
}

// Not fitted: two tunes of the three books.
InferredRhythm infer_twelve(const Beats& beats) {
    return {"slide", beats.threes > beats.two_thirds_first ? Kinds{"jig", "single jig"} : Kinds{"single jig"}};
}

// --- bars of three. Not fitted: the books hold five waltzes and no mazurka.

InferredRhythm infer_three(const BarsOfThree& bars) {
    if (2 * bars.weight_on_second > bars.all) return {"mazurka", {"varsovienne", "waltz"}};
    if (5 * bars.weight_on_second > bars.all) return {"waltz", {"mazurka", "varsovienne", "air"}};
    return {"waltz", {"air"}};
}

// --- bars of two and four

struct Duple {
    const music::Melody& melody;
    Meter meter;
    Beats quarters;  // of the bar
    PartEnds ends;

    bool is_short() const { return meter.bar_length() < Duration(1, 1); }  // 2/4, not 4/4
    bool is_cut() const { return meter.unit == 2; }                        // C| or 2/2
};

bool has_four_parts(const music::Melody& melody) {
    constexpr int kShortestPart = 4;  // shorter ones are introductions. Source: house choice
    std::unordered_set<std::string> labels;
    for (const tune::Part& part : find_structure(melody, number_bars(melody)).parts)
        if (part.bars >= kShortestPart) labels.insert(part.label);
    return labels.size() >= 4;
}

InferredRhythm in_order(Kinds kinds) {
    std::string first = std::move(kinds.front());
    kinds.erase(kinds.begin());
    return {std::move(first), std::move(kinds)};
}

// Most quarters undivided: it walks. Many dotted pairs of the half bar: a third of those divided. Source: house choice.
// Fitted: in 4/4 such tunes are marches (Aird's); no book has a polka.
InferredRhythm infer_walking(const Duple& duple) {
    const Beats halves = count_beats(duple.melody, {duple.meter.beats, 2 * duple.meter.unit});
    const bool is_dotted = halves.uneven() > 0 && 3 * halves.uneven() >= halves.divided;
    const bool is_march = is_dotted || !duple.is_short() || has_four_parts(duple.melody);
    Kinds kinds = is_march ? Kinds{"march", "polka"} : Kinds{"polka", "march"};
    if (4 * duple.quarters.divided > duple.quarters.all) kinds.emplace_back("reel");
    if (!duple.is_short()) kinds.emplace_back("barndance");
    kinds.emplace_back("air");
    return in_order(std::move(kinds));
}

// Most pairs long and short, or short and long. Fitted: a sixth of all pairs are snaps in 21 of 33 strathspeys and 6 of
// 11 flings (Ryan's), in 1 of 379 hornpipes (O'Neill's, Ryan's). No strathspey and no fling ends a part on three
// quarters, and 85 of 121 dotted hornpipes and clogs do (O'Neill's, Ryan's). The two are told apart by how they are
// noted, and by nothing else: strathspeys in C, flings in C| (Ryan's alone). Reels are possible beside them because
// some write every pair of quavers dotted. Source: house choice.
InferredRhythm infer_dotted(const Duple& duple) {
    const Beats& beats = duple.quarters;
    const bool is_snappy = 6 * beats.short_long > beats.pairs();
    const bool ends_on_three = duple.ends.on_three_beats > 0;
    Kinds kinds;
    if (is_snappy || (!ends_on_three && beats.short_long > 0)) {
        kinds = {"strathspey", "highland fling", "schottische"};
        if (duple.is_cut()) std::swap(kinds[0], kinds[1]);
        if (!is_snappy) kinds.insert(kinds.end(), {"hornpipe", "barndance", "reel"});
    } else if (ends_on_three) {
        kinds = {"hornpipe", "barndance", "schottische"};
    } else {
        kinds = {"hornpipe", "strathspey", "highland fling", "schottische", "barndance", "reel"};
    }
    return in_order(std::move(kinds));
}

// Fitted: of even tunes that end a part on three quarters 238 are hornpipes and 36 reels (O'Neill's, Ryan's), of others
// 45 and 506. Where a third of the quarters is undivided anyway, such an end tells little. Source: house choice.
InferredRhythm infer_even(const Duple& duple) {
    const Beats& beats = duple.quarters;
    const bool is_open = 3 * (beats.all - beats.divided) > beats.all;
    Kinds kinds = duple.ends.on_three_beats > 0 && !is_open ? Kinds{"hornpipe", "reel"} : Kinds{"reel", "hornpipe"};
    if (duple.is_short() || is_open) kinds.emplace_back("polka");
    if (5 * beats.uneven() > beats.pairs())
        kinds.insert(kinds.end(), {"highland fling", "barndance", "schottische", "strathspey"});
    if (is_open) kinds.insert(kinds.end(), {"march", "air"});
    return in_order(std::move(kinds));
}

InferredRhythm infer_duple(const Duple& duple) {
    if (2 * duple.quarters.divided < duple.quarters.all) return infer_walking(duple);
    if (2 * duple.quarters.uneven() > duple.quarters.pairs()) return infer_dotted(duple);
    return infer_even(duple);
}

Duple duple_of(const Meter& meter, const music::Melody& melody) {
    const Duration quarter(meter.beats, 4 * meter.unit);
    return {melody, meter, count_beats(melody, quarter), count_part_ends(melody, quarter)};
}

}  // namespace

std::optional<InferredRhythm> infer_rhythm(const Meter& meter, const music::Melody& melody) {
    if (meter.is_free() || melody.heads.empty()) return std::nullopt;
    const Duration three_units(3, meter.unit);
    switch (meter_family(meter)) {
        case MeterFamily::six:
            return infer_six(count_beats(melody, three_units));
        case MeterFamily::nine:
            return infer_nine(count_beats(melody, three_units));
        case MeterFamily::twelve:
            return infer_twelve(count_beats(melody, three_units));
        case MeterFamily::three:
            return infer_three(count_bars_of_three(melody, {1, meter.unit}));
        case MeterFamily::three_minims:
            return InferredRhythm{"triple hornpipe", {"hornpipe"}};
        case MeterFamily::short_duple:
        case MeterFamily::duple:
            return infer_duple(duple_of(meter, melody));
        case MeterFamily::other:
            return std::nullopt;
    }
    return std::nullopt;
}

}  // namespace analysis
