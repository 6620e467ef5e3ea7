// A kind is inferred from the meter and from whole beats: how many are three quavers, a dotted pair, a snap and so on,
// and how the parts end. "Measured" below: on the 888 tunes of O'Neill's Music of Ireland (Chicago 1903) that an ABC
// edition states a kind of. Tested by rhythm_name_test.cc.
#include "analysis/rhythm_name.h"

#include <algorithm>
#include <array>
#include <unordered_set>
#include <utility>

#include "analysis/note_uses.h"
#include "analysis/structure.h"
#include "base/utf8.h"

namespace analysis {

namespace {

using music::Duration;
using music::Meter;
using music::Sound;
using Name = std::pair<std::string_view, std::string_view>;

// clang-format off
// Written, singular and folded, hyphens as blanks -> token.
// Source: common practice, no source; mis-spellings from memory.
constexpr std::array kNames{
    Name{"reel", "reel"}, Name{"single reel", "reel"}, Name{"double reel", "reel"}, Name{"reell", "reel"},
    Name{"jig", "jig"}, Name{"double jig", "jig"}, Name{"irish jig", "jig"}, Name{"scotch jig", "jig"},
    Name{"jigg", "jig"}, Name{"slip jig", "slip jig"}, Name{"slipjig", "slip jig"}, Name{"hop jig", "hop jig"},
    Name{"hopjig", "hop jig"}, Name{"single jig", "single jig"}, Name{"slide", "slide"}, Name{"polka", "polka"},
    Name{"polca", "polka"}, Name{"hornpipe", "hornpipe"}, Name{"horn pipe", "hornpipe"}, Name{"hornpip", "hornpipe"},
    Name{"hornpype", "hornpipe"}, Name{"triple hornpipe", "triple hornpipe"},
    Name{"triple time hornpipe", "triple hornpipe"}, Name{"3/2 hornpipe", "triple hornpipe"},
    Name{"three two", "triple hornpipe"}, Name{"barndance", "barndance"}, Name{"barn dance", "barndance"},
    Name{"highland fling", "highland fling"}, Name{"highland", "highland fling"}, Name{"fling", "highland fling"},
    Name{"schottische", "schottische"}, Name{"schottisch", "schottische"}, Name{"schottishe", "schottische"},
    Name{"scottische", "schottische"}, Name{"shottische", "schottische"}, Name{"shottisch", "schottische"},
    Name{"strathspey", "strathspey"}, Name{"strathpey", "strathspey"}, Name{"strathspay", "strathspey"},
    Name{"march", "march"}, Name{"quick march", "march"}, Name{"slow march", "march"}, Name{"pipe march", "march"},
    Name{"waltz", "waltz"}, Name{"waltze", "waltz"}, Name{"walz", "waltz"}, Name{"slow waltz", "waltz"},
    Name{"mazurka", "mazurka"}, Name{"mazourka", "mazurka"}, Name{"mazurca", "mazurka"},
    Name{"varsovienne", "varsovienne"}, Name{"varsoviana", "varsovienne"}, Name{"rant", "rant"},
    Name{"set dance", "set dance"}, Name{"setdance", "set dance"}, Name{"long dance", "set dance"},
    Name{"air", "air"}, Name{"slow air", "air"}, Name{"song air", "air"}, Name{"lament", "air"},
    Name{"planxty", "planxty"},
};
// clang-format on

std::optional<std::string> known_token(std::string_view word) {
    for (const auto& [written, token] : kNames)
        if (word == written) return std::string(token);
    return std::nullopt;
}

std::string singular(std::string word) {
    const auto ends = [&](std::string_view tail) { return word.size() > tail.size() + 2 && word.ends_with(tail); };
    if (ends("tzes") || ends("ches"))
        word.resize(word.size() - 2);
    else if (ends("eys"))
        word.pop_back();
    else if (ends("ies"))
        word.resize(word.size() - 3), word += 'y';
    else if (ends("s") && !word.ends_with("ss"))
        word.pop_back();
    return word;
}

// Without blanks and full stops at the ends, one blank between words.
std::string trimmed(std::string_view text) {
    std::string word;
    for (const char c : text) {
        const bool is_blank = c == ' ' || c == '\t' || c == '_';
        if (is_blank && (word.empty() || word.back() == ' ')) continue;
        word += is_blank ? ' ' : c;
    }
    while (!word.empty() && (word.back() == ' ' || word.back() == '.' || word.back() == ',')) word.pop_back();
    return word;
}

// --- whole beats

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

// --- one answer for each meter. Source of the rules: common practice, no source.

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

bool is_meter(const Meter& meter, int beats, int unit) { return meter.beats == beats && meter.unit == unit; }

// 4/4, C, 2/2 and C|.
bool is_whole_note(const Meter& meter) { return meter.bar_length() == Duration(1, 1); }

}  // namespace

std::string rhythm_token(std::string_view stated) {
    const std::string folded = trimmed(base::fold(stated));
    std::string spaced = folded;
    std::replace(spaced.begin(), spaced.end(), '-', ' ');
    if (auto token = known_token(singular(trimmed(spaced)))) return *token;
    // `jigs (slip)`, `jig, double`: with the addition before it, else without.
    const std::size_t cut = spaced.find_first_of("(,[");
    if (cut != std::string::npos && cut > 0) {
        const std::string kind = singular(trimmed(spaced.substr(0, cut)));
        std::string addition = spaced.substr(cut + 1);
        addition.resize(std::min(addition.size(), addition.find_first_of(")]")));
        if (auto token = known_token(trimmed(addition) + " " + kind)) return *token;
        if (auto token = known_token(kind)) return *token;
    }
    return singular(folded);
}

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

bool rhythm_suits(std::string_view token, const Meter& meter) {
    if (meter.is_free()) return true;
    const auto is_one_of = [&](std::initializer_list<std::string_view> kinds) {
        return std::find(kinds.begin(), kinds.end(), token) != kinds.end();
    };
    if (is_one_of({"jig", "single jig"})) return is_meter(meter, 6, 8);
    if (is_one_of({"slip jig", "hop jig"})) return is_meter(meter, 9, 8);
    if (token == "slide") return is_meter(meter, 12, 8) || is_meter(meter, 6, 8);
    if (token == "polka") return is_meter(meter, 2, 4);
    if (is_one_of({"waltz", "mazurka", "varsovienne"})) return is_meter(meter, 3, 4);
    if (token == "triple hornpipe") return is_meter(meter, 3, 2);
    if (token == "reel") return is_whole_note(meter) || is_meter(meter, 2, 4);
    // In 3/2 by a name that English and Northumbrian players share. In 2/4: measured, 74 of 213 hornpipes.
    if (token == "hornpipe") return is_whole_note(meter) || is_meter(meter, 3, 2) || is_meter(meter, 2, 4);
    if (is_one_of({"barndance", "highland fling", "schottische", "strathspey", "rant"})) return is_whole_note(meter);
    return true;
}

}  // namespace analysis
