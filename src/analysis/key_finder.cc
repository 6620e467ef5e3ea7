// Tonic: the twelve sums of note lengths are correlated with a published profile at each of the twelve tonics, and the last note
// counts for itself. Mode: every mode that no degree speaks against is a candidate; a degree that never sounds, or sounds both ways,
// speaks against none. One candidate left is an answer, more are undecided.
// Tested by key_finder_test.cc.
#include "analysis/key_finder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

namespace analysis {

namespace {

using music::Mode;
using Weights = std::array<double, 12>;   // sums of note lengths in whole notes, by semitones above a tonic

// Source: Albrecht and Shanahan, Music Perception 31(1), 2013, pages 59-67; from the tonic, rising by semitones.
constexpr Weights kMajorProfile{.238, .006, .111, .006, .137, .094, .016, .214, .009, .080, .008, .081};
constexpr Weights kMinorProfile{.220, .006, .104, .123, .019, .103, .012, .214, .062, .022, .061, .052};

// Added to the correlation of the tonic that is the last note. Source: house choice; on dance tunes the last note is the tonic in
// four of five (common practice), which no profile knows.
constexpr double kLastNoteBonus = 0.25;

// A rival tonic this close leaves the tonic undecided. Source: house choice.
constexpr double kRivalMargin = 0.05;

// Of a degree that sounds both ways, a form with less than this share is passing. Source: house choice.
constexpr double kPassingShare = 0.1;

Weights weigh(const music::Melody& melody) {
    Weights weights{};
    for (const music::Sound& sound : melody.sounds) {
        if (sound.kind != music::Sound::Kind::note) continue;
        const double length = static_cast<double>(sound.length.numerator()) / static_cast<double>(sound.length.denominator());
        for (std::uint32_t head = 0; head < sound.head_count; ++head)
            weights[static_cast<std::size_t>(melody.heads[sound.first_head + head].midi % 12)] += length;
    }
    return weights;
}

Weights above(const Weights& weights, int tonic) {
    Weights turned{};
    for (int step = 0; step < 12; ++step) turned[static_cast<std::size_t>(step)] = weights[static_cast<std::size_t>((tonic + step) % 12)];
    return turned;
}

// Pearson's. 0 where one side does not vary.
double correlation(const Weights& a, const Weights& b) {
    double mean_a = 0, mean_b = 0;
    for (std::size_t i = 0; i < 12; ++i) mean_a += a[i] / 12, mean_b += b[i] / 12;
    double product = 0, square_a = 0, square_b = 0;
    for (std::size_t i = 0; i < 12; ++i) {
        product += (a[i] - mean_a) * (b[i] - mean_b);
        square_a += (a[i] - mean_a) * (a[i] - mean_a);
        square_b += (b[i] - mean_b) * (b[i] - mean_b);
    }
    return square_a > 0 && square_b > 0 ? product / std::sqrt(square_a * square_b) : 0;
}

struct Tonic {
    int pitch_class = 0;
    double score = 0;
};

std::vector<Tonic> rank_tonics(const Weights& weights, int last_class) {
    std::vector<Tonic> tonics;
    for (int tonic = 0; tonic < 12; ++tonic) {
        const Weights turned = above(weights, tonic);
        const double fit = std::max(correlation(turned, kMajorProfile), correlation(turned, kMinorProfile));
        tonics.push_back({tonic, fit + (tonic == last_class ? kLastNoteBonus : 0)});
    }
    std::stable_sort(tonics.begin(), tonics.end(), [](const Tonic& a, const Tonic& b) { return a.score > b.score; });
    return tonics;
}

// How a degree sounds: its lower form, its higher one, both, or never.
struct Degree {
    double low = 0;
    double high = 0;

    bool is_silent() const { return low + high <= 0; }
    bool is_decided() const { return !is_silent() && std::min(low, high) <= kPassingShare * (low + high); }
    bool is_high() const { return high > low; }
};

// A scale degree, the letters it lies above the tonic, and its two forms in semitones.
struct DegreeForms {
    std::string_view name;
    int letters;
    int low;
    int high;
};
constexpr std::array<DegreeForms, 6> kDegrees{{{"second", 1, 1, 2}, {"third", 2, 3, 4}, {"fourth", 3, 5, 6},
                                               {"fifth", 4, 6, 7}, {"sixth", 5, 8, 9}, {"seventh", 6, 10, 11}}};

Degree degree_of(const Weights& above_tonic, const DegreeForms& forms) {
    return {above_tonic[static_cast<std::size_t>(forms.low)], above_tonic[static_cast<std::size_t>(forms.high)]};
}

bool has_high(Mode mode, const DegreeForms& forms) { return music::mode_semitones(mode)[static_cast<std::size_t>(forms.letters)] == forms.high; }

// Lydian, phrygian and locrian are rare: they are named only where the degree that makes them is heard. Source: common practice,
// no source.
bool is_heard(Mode mode, const DegreeForms& forms, const Degree& degree) {
    const bool makes_it = (mode == Mode::lydian && forms.letters == 3) || (mode == Mode::phrygian && forms.letters == 1) ||
                          (mode == Mode::locrian && forms.letters == 4);
    return !makes_it || degree.is_decided();
}

// Commonest first. Source: common practice, no source.
constexpr std::array<Mode, 7> kByUse{Mode::major, Mode::dorian, Mode::minor, Mode::mixolydian, Mode::lydian, Mode::phrygian, Mode::locrian};

// The modes that no decided degree speaks against, those that hold more of the sounding time first.
std::vector<Mode> find_modes(const Weights& above_tonic) {
    const auto time_inside = [&](Mode mode) {
        double time = 0;
        for (const int step : music::mode_semitones(mode)) time += above_tonic[static_cast<std::size_t>(step)];
        return time;
    };
    const auto is_allowed = [&](Mode mode) {
        return std::all_of(kDegrees.begin(), kDegrees.end(), [&](const DegreeForms& forms) {
            const Degree degree = degree_of(above_tonic, forms);
            return is_heard(mode, forms, degree) && (!degree.is_decided() || degree.is_high() == has_high(mode, forms));
        });
    };
    std::vector<Mode> ranked(kByUse.begin(), kByUse.end());
    std::stable_sort(ranked.begin(), ranked.end(), [&](Mode a, Mode b) { return time_inside(a) > time_inside(b) + 1e-9; });
    std::vector<Mode> allowed;
    std::copy_if(ranked.begin(), ranked.end(), std::back_inserter(allowed), is_allowed);
    if (allowed.empty()) allowed.push_back(ranked.front());  // no mode has these degrees: the one that holds most of the time
    return allowed;
}

std::string per_cent(double part, double whole) { return std::to_string(static_cast<int>(std::lround(100 * part / whole))) + " %"; }

// `C# 4 %` or `C# never`; spelled by the letter of its degree.
std::string form_of(const Weights& above_tonic, music::NoteName tonic, int letters, int semitones, double whole) {
    music::NoteName name{static_cast<music::Letter>((static_cast<int>(tonic.letter) + letters) % music::kLetters), 0};
    const int off = (tonic.pitch_class() + semitones - name.pitch_class() + 18) % 12 - 6;
    name.accidental = static_cast<std::int8_t>(off);
    const double part = above_tonic[static_cast<std::size_t>(semitones)];
    return music::to_string(name) + (part > 0 ? " " + per_cent(part, whole) : " never");
}

std::vector<std::string> evidence_for(const Weights& weights, int tonic, std::optional<int> last, int fifths) {
    double whole = 0;
    int names = 0;
    for (const double weight : weights) whole += weight, names += weight > 0 ? 1 : 0;
    std::vector<std::string> evidence;
    if (last) evidence.push_back("last note " + music::to_string(music::spell_midi(*last, fifths)));
    evidence.push_back(std::to_string(names) + " note names sound");
    if (whole <= 0) return evidence;
    evidence.push_back(music::to_string(music::spell(tonic, fifths)) + " fills " + per_cent(weights[static_cast<std::size_t>(tonic)], whole) + " of the time");
    const music::NoteName home = music::spell(tonic, fifths);
    const Weights above_tonic = above(weights, tonic);
    for (const DegreeForms& forms : kDegrees) {
        if (forms.letters == 4) continue;  // the fifth tells only locrian apart
        evidence.push_back(std::string(forms.name) + ": " + form_of(above_tonic, home, forms.letters, forms.high, whole) + ", " +
                           form_of(above_tonic, home, forms.letters, forms.low, whole));
    }
    return evidence;
}

int spelling_of(const music::Melody& melody) {
    if (melody.keys.empty()) return 0;
    const music::StatedKey& stated = melody.keys.front().key;
    if (stated.kind == music::StatedKey::Kind::highland_pipes) return 2;
    return stated.kind == music::StatedKey::Kind::tonic_and_mode ? std::clamp(stated.key.signature_fifths(), -7, 7) : 0;
}

}  // namespace

std::optional<tune::KeyFinding> find_key(const music::Melody& melody) {
    const auto last = std::find_if(melody.sounds.rbegin(), melody.sounds.rend(),
                                   [](const music::Sound& sound) { return sound.kind == music::Sound::Kind::note; });
    if (last == melody.sounds.rend()) return std::nullopt;
    int last_note = 0;
    for (std::uint32_t head = 0; head < last->head_count; ++head)
        last_note = std::max<int>(last_note, melody.heads[last->first_head + head].midi);
    const Weights weights = weigh(melody);
    const int fifths = spelling_of(melody);
    const std::vector<Tonic> tonics = rank_tonics(weights, last_note % 12);
    tune::KeyFinding finding;
    const auto add = [&](int tonic) {
        const std::vector<Mode> modes = find_modes(above(weights, tonic));
        for (const Mode mode : modes) finding.candidates.push_back({music::spell(tonic, fifths), mode});
        return modes.size() == 1;
    };
    finding.decided = add(tonics[0].pitch_class);
    if (tonics[0].score - tonics[1].score < kRivalMargin) {
        add(tonics[1].pitch_class);
        finding.decided = false;
    }
    finding.evidence = evidence_for(weights, tonics[0].pitch_class, last_note, fifths);
    return finding;
}

}  // namespace analysis
