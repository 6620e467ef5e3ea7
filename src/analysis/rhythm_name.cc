#include "analysis/rhythm_name.h"

#include <array>
#include <utility>

#include "base/utf8.h"

namespace analysis {

namespace {

using music::Duration;
using Name = std::pair<std::string_view, std::string_view>;

// Written, singular and folded -> token. Source: common practice, no source.
constexpr std::array<Name, 26> kNames{{
    {"double jig", "jig"},     {"irish jig", "jig"},         {"scotch jig", "jig"},      {"slip jig", "slip jig"},
    {"slipjig", "slip jig"},   {"hop jig", "hop jig"},       {"hopjig", "hop jig"},      {"single jig", "single jig"},
    {"slow air", "air"},       {"song air", "air"},          {"lament", "air"},          {"long dance", "set dance"},
    {"set dance", "set dance"}, {"setdance", "set dance"},   {"barn dance", "barndance"}, {"highland", "highland fling"},
    {"fling", "highland fling"}, {"highland fling", "highland fling"}, {"schottisch", "schottische"}, {"quick march", "march"},
    {"slow march", "march"},   {"triple hornpipe", "triple hornpipe"}, {"three-two", "triple hornpipe"}, {"waltze", "waltz"},
    {"single reel", "reel"},   {"double reel", "reel"},
}};

std::string singular(std::string word) {
    const auto ends = [&](std::string_view tail) { return word.size() > tail.size() + 2 && word.ends_with(tail); };
    if (ends("tzes") || ends("ches")) word.resize(word.size() - 2);
    else if (ends("eys")) word.pop_back();
    else if (ends("ies")) word.resize(word.size() - 3), word += 'y';
    else if (ends("s") && !word.ends_with("ss")) word.pop_back();
    return word;
}

// Neighbouring notes of a bar by their lengths. Uneven pairs count where they start on a multiple of their own length, so that
// the short note of one pair and the long one of the next make none.
struct Pattern {
    int long_short = 0;
    int short_long = 0;
    int even = 0;
    int threes = 0;     // three equal quavers
};

bool starts_pair(const music::Sound& first, const music::Sound& second) {
    const auto whole = sum(first.length, second.length);
    if (!first.at || !whole) return false;
    return (first.at->numerator() * whole->denominator()) % (first.at->denominator() * whole->numerator()) == 0;
}

Pattern count_pattern(const music::Melody& melody) {
    Pattern pattern;
    const music::Sound* previous = nullptr;
    int equal_run = 1;
    for (const music::Sound& sound : melody.sounds) {
        if (sound.kind != music::Sound::Kind::note) continue;
        if (previous != nullptr && previous->bar == sound.bar) {
            if (previous->length == sound.length) {
                ++pattern.even;
                if (++equal_run % 3 == 0) ++pattern.threes;
            } else {
                const bool falls = sound.length < previous->length;
                const Duration& longer = falls ? previous->length : sound.length;
                const Duration& shorter = falls ? sound.length : previous->length;
                const bool is_pair = longer.numerator() * shorter.denominator() < 4 * shorter.numerator() * longer.denominator();
                if (is_pair && starts_pair(*previous, sound)) ++(falls ? pattern.long_short : pattern.short_long);
                equal_run = 1;
            }
        }
        previous = &sound;
    }
    return pattern;
}

}  // namespace

std::string rhythm_token(std::string_view stated) {
    std::string word;
    for (const char c : base::fold(stated)) {
        const bool is_blank = c == ' ' || c == '\t' || c == '_';
        if (is_blank && (word.empty() || word.back() == ' ')) continue;
        word += is_blank ? ' ' : c;
    }
    while (!word.empty() && (word.back() == ' ' || word.back() == '.' || word.back() == ',')) word.pop_back();
    word = singular(std::move(word));
    for (const auto& [written, token] : kNames)
        if (word == written) return std::string(token);
    return word;
}

std::optional<std::string> infer_rhythm(const music::Meter& meter, const music::Melody& melody) {
    if (meter.is_free()) return std::nullopt;
    const Pattern pattern = count_pattern(melody);
    const int pairs = pattern.long_short + pattern.short_long;
    if (meter.unit == 8 && meter.beats == 6) return pattern.threes * 2 >= pattern.long_short ? "jig" : "single jig";
    if (meter.unit == 8 && meter.beats == 9) return pattern.threes >= pattern.long_short ? "slip jig" : "hop jig";
    if (meter.unit == 8 && meter.beats == 12) return "slide";
    if (meter.unit == 4 && meter.beats == 2) return pairs > pattern.even ? "march" : "polka";
    if (meter.unit == 4 && meter.beats == 3) return "waltz";
    if (meter.unit == 2 && meter.beats == 3) return "triple hornpipe";
    if (meter.bar_length() == Duration(1, 1)) {
        const bool snaps = pattern.short_long * 4 > pairs && pairs > pattern.even;
        if (snaps && pattern.long_short > 0) return "strathspey";
        return pattern.long_short > pattern.even ? "hornpipe" : "reel";
    }
    return std::nullopt;
}

std::optional<tune::Finding<std::string>> find_rhythm(const std::optional<std::string>& stated, const music::Meter& meter,
                                                     const music::Melody& melody) {
    if (stated) {
        std::string token = rhythm_token(*stated);
        if (!token.empty()) return tune::Finding<std::string>{std::move(token), tune::Basis::stated};
    }
    if (melody.heads.empty()) return std::nullopt;
    if (auto inferred = infer_rhythm(meter, melody)) return tune::Finding<std::string>{std::move(*inferred), tune::Basis::computed};
    return std::nullopt;
}

}  // namespace analysis
