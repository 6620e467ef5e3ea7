// A kind is inferred from the meter and from whole beats: how many are three quavers, a dotted pair, a snap and so on,
// and how the parts end. "Measured" below: on the 888 tunes of O'Neill's Music of Ireland (Chicago 1903) that an ABC
// edition states a kind of. Tested by rhythm_name_test.cc.
#include "analysis/rhythm_name.h"

#include <array>
#include <unordered_set>
#include <utility>

#include "analysis/note_uses.h"
#include "analysis/rhythm_words.h"
#include "analysis/structure.h"

namespace analysis {

namespace {

using music::Duration;
using music::Meter;
using music::Sound;

// How many beats of a melody are of each kind. A beat begins with a sound and is filled by sounds that do not outlast
// it.
struct Beats {
    // Beats of a dotted crotchet.
    int threes = 0;  // three notes and more
    int crotchet_quaver = 0;
    // Beats of a crotchet.
    int long_short = 0;  // 3:1, and 2:1 as a triplet writes it
    int short_long = 0;
    int even = 0;     // two or four equal notes
    int runs = 0;     // four notes and more
    int divided = 0;  // more than one note
    // Of both.
    int all = 0;
};

class BeatWalk {
public:
    BeatWalk(const Duration& beat, Beats& beats) : beat_(beat), beats_(beats) {}

    void take(const Sound& sound) {
        if (!sound.at) return close();
        const bool begins =
            (sound.at->numerator() * beat_.denominator()) % (sound.at->denominator() * beat_.numerator()) == 0;
        if (begins) close();
        is_open_ = is_open_ || begins;
        if (is_open_ && count_ < lengths_.size())
            lengths_[count_++] = sound.length;
        else
            is_open_ = false;  // too many to be told apart, or not begun
    }

    void close() {
        if (std::exchange(is_open_, false)) count();
        count_ = 0;
    }

private:
    void count() {
        ++beats_.all;
        std::optional<Duration> filled = Duration();
        for (std::size_t index = 0; filled && index < count_; ++index) filled = sum(*filled, lengths_[index]);
        if (!filled || *filled != beat_ || count_ < 2) return;
        ++beats_.divided;
        if (count_ >= 4) ++beats_.runs;
        const Duration& first = lengths_[0];
        if (beat_ == Duration(3, 8)) {
            if (first == Duration(1, 4))
                ++beats_.crotchet_quaver;
            else if (count_ >= 3)
                ++beats_.threes;
            return;
        }
        bool are_equal = true;
        for (std::size_t index = 1; index < count_; ++index) are_equal = are_equal && lengths_[index] == first;
        if (are_equal)
            beats_.even += count_ != 3 ? 1 : 0;
        else if (count_ == 2)
            ++(lengths_[1] < first ? beats_.long_short : beats_.short_long);
    }

    Duration beat_;
    Beats& beats_;
    std::array<Duration, 8> lengths_;
    std::size_t count_ = 0;
    bool is_open_ = false;
};

// A short ending is none, though it stands after a repeat sign.
bool is_lead_in(const music::Melody& melody, std::size_t bar) {
    return melody.bars[bar].ending.empty() && is_pickup(melody, bar);
}

Beats count_beats(const music::Melody& melody, const Duration& beat) {
    Beats beats;
    BeatWalk walk(beat, beats);
    std::uint32_t bar = 0;
    bool is_lead = !melody.bars.empty() && is_lead_in(melody, 0);
    for (const Sound& sound : melody.sounds) {
        if (sound.bar != bar) {
            walk.close();
            bar = sound.bar;
            is_lead = is_lead_in(melody, bar);
        }
        // Places in a pick-up count from its own beginning, not from a beat.
        if (sound.kind != Sound::Kind::grace && !is_lead) walk.take(sound);
    }
    walk.close();
    return beats;
}

// How many parts end on three crotchets, the middle one of which may be divided.
struct PartEnds {
    int all = 0;
    int three_crotchets = 0;
};

bool ends_part(const music::Melody& melody, std::size_t bar) {
    if (melody.bars[bar].repeat_closes || melody.bars[bar].thick_after || bar + 1 == melody.bars.size()) return true;
    return melody.bars[bar + 1].repeat_opens;
}

PartEnds count_part_ends(const music::Melody& melody) {
    PartEnds ends;
    auto sound = melody.sounds.begin();
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        bool opens = false, goes_on = false, closes = false;
        for (; sound != melody.sounds.end() && sound->bar == bar; ++sound) {
            if (sound->kind != Sound::Kind::note || !sound->at) continue;
            if (*sound->at == Duration()) opens = sound->length == Duration(1, 4);
            if (*sound->at == Duration(1, 4)) goes_on = true;
            if (*sound->at == Duration(1, 2)) closes = !(sound->length < Duration(1, 4));
        }
        if (!ends_part(melody, bar) || is_lead_in(melody, bar)) continue;
        ++ends.all;
        if (opens && goes_on && closes) ++ends.three_crotchets;
    }
    return ends;
}

// One answer for each meter. Source of the rules: common practice, no source.

// Of the beats that are divided either way. Measured: so 267 of 280 jigs are called jigs, 260 when beats of one note
// count too.
InferredRhythm infer_six_eight(const Beats& beats) {
    if (beats.threes >= beats.crotchet_quaver) return {"jig", {}};
    return {"single jig", {"slide"}};
}

// The older name covers both: 12 of the 80 slip jigs measured are hop jigs by this rule.
InferredRhythm infer_nine_eight(const Beats& beats) {
    if (2 * beats.crotchet_quaver > beats.all) return {"hop jig", {"slip jig"}};
    return {"slip jig", {}};
}

bool has_four_parts(const music::Melody& melody) {
    constexpr int kShortestPart = 4;  // shorter ones are introductions. Source: house choice
    std::unordered_set<std::string> labels;
    for (const tune::Part& part : find_structure(melody, number_bars(melody)).parts)
        if (part.bars >= kShortestPart) labels.insert(part.label);
    return labels.size() >= 4;
}

// Many dotted pairs: a third of the beats that are divided. Source: house choice.
// Half the beats in semiquavers: written at half size. Source: house choice; measured, of 69 such dance
// tunes 66 are called hornpipes and 3 reels.
InferredRhythm infer_two_four(const Beats& beats, const music::Melody& melody) {
    const int pairs = beats.long_short + beats.short_long;
    const bool is_dotted = pairs > 0 && 3 * pairs >= beats.divided;
    if (is_dotted || has_four_parts(melody)) return {"march", {"polka"}};
    if (2 * beats.runs >= beats.divided && beats.runs > 0) return {"polka", {"reel", "hornpipe"}};
    return {"polka", {}};
}

// Snaps: more than a sixth of all pairs, which no hornpipe has of 139 measured. Dotted pairs beside them: a tenth.
// Source: house choice. Three-crotchet cadences: half the parts end so. Measured: none of 633 parts of reels does.
InferredRhythm infer_four_four(const Beats& beats, const music::Melody& melody) {
    const int pairs = beats.long_short + beats.short_long + beats.even;
    if (6 * beats.short_long > pairs && 10 * beats.long_short > pairs) return {"strathspey", {}};
    const PartEnds ends = count_part_ends(melody);
    if (2 * beats.long_short > pairs || (ends.three_crotchets > 0 && 2 * ends.three_crotchets >= ends.all))
        return {"hornpipe", {}};
    return {"reel", {"hornpipe"}};
}

}  // namespace

std::optional<InferredRhythm> infer_rhythm(const Meter& meter, const music::Melody& melody) {
    if (meter.is_free() || melody.heads.empty()) return std::nullopt;
    if (is_meter(meter, 6, 8)) return infer_six_eight(count_beats(melody, {3, 8}));
    if (is_meter(meter, 9, 8)) return infer_nine_eight(count_beats(melody, {3, 8}));
    if (is_meter(meter, 12, 8)) return InferredRhythm{"slide", {}};
    if (is_meter(meter, 2, 4)) return infer_two_four(count_beats(melody, {1, 4}), melody);
    if (is_meter(meter, 3, 4)) return InferredRhythm{"waltz", {"mazurka"}};
    if (is_meter(meter, 3, 2)) return InferredRhythm{"triple hornpipe", {}};
    if (is_whole_note(meter)) return infer_four_four(count_beats(melody, {1, 4}), melody);
    return std::nullopt;
}

std::optional<tune::Finding<std::string>> find_rhythm(const std::optional<std::string>& stated, const Meter& meter,
                                                      const music::Melody& melody) {
    if (stated) {
        std::string token = rhythm_token(*stated);
        if (!token.empty()) return tune::Finding<std::string>{std::move(token), tune::Basis::stated};
    }
    auto inferred = infer_rhythm(meter, melody);
    if (!inferred) return std::nullopt;
    return tune::Finding<std::string>{std::move(inferred->token), tune::Basis::computed};
}

}  // namespace analysis
