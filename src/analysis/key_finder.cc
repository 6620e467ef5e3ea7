// Tonic: the twelve sums of note lengths are correlated with a published profile at each of the twelve tonics, and the last note
// counts for itself. Mode: by the degrees that tell the modes apart (third, seventh, sixth, fourth, second); where such a degree never
// sounds, or sounds both ways, the modes it would part stay candidates and the answer is undecided.
// Tested by key_finder_test.cc.
#include "analysis/key_finder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
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

struct ModeFinding {
    std::vector<Mode> modes;
    bool decided = true;
};

// `high` and `low` by the degree, the likelier first; both where it does not decide.
void add_by(const Degree& degree, Mode low, Mode high, ModeFinding& found) {
    found.modes.push_back(degree.is_high() || degree.is_silent() ? high : low);
    if (degree.is_decided()) return;
    found.modes.push_back(found.modes.back() == high ? low : high);
    found.decided = false;
}

void add_major_modes(const Weights& above_tonic, ModeFinding& found) {
    const Degree seventh{above_tonic[10], above_tonic[11]};
    const Degree fourth{above_tonic[5], above_tonic[6]};
    if (fourth.is_decided() && fourth.is_high() && !(seventh.is_decided() && !seventh.is_high())) found.modes.push_back(Mode::lydian);
    else add_by(seventh, Mode::mixolydian, Mode::major, found);
}

void add_minor_modes(const Weights& above_tonic, ModeFinding& found) {
    const Degree second{above_tonic[1], above_tonic[2]};
    const Degree fifth{above_tonic[6], above_tonic[7]};
    const Degree sixth{above_tonic[8], above_tonic[9]};
    if (second.is_decided() && !second.is_high()) found.modes.push_back(fifth.is_decided() && !fifth.is_high() ? Mode::locrian : Mode::phrygian);
    else add_by(sixth, Mode::minor, Mode::dorian, found);
}

ModeFinding find_modes(const Weights& above_tonic) {
    const Degree third{above_tonic[3], above_tonic[4]};
    ModeFinding found;
    const bool major_first = third.is_high() || third.is_silent();
    if (major_first) add_major_modes(above_tonic, found);
    else add_minor_modes(above_tonic, found);
    if (!third.is_decided()) {
        if (major_first) add_minor_modes(above_tonic, found);
        else add_major_modes(above_tonic, found);
        found.decided = false;
    }
    return found;
}

std::string per_cent(double part, double whole) { return std::to_string(static_cast<int>(std::lround(100 * part / whole))) + " %"; }

// `C# 4 %, C none` for the two forms of a degree.
std::string form_of(const Weights& weights, int pitch_class, int fifths, double whole) {
    const double part = weights[static_cast<std::size_t>(pitch_class % 12)];
    return music::to_string(music::spell(pitch_class % 12, fifths)) + (part > 0 ? " " + per_cent(part, whole) : " never");
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
    evidence.push_back("third: " + form_of(weights, tonic + 4, fifths, whole) + ", " + form_of(weights, tonic + 3, fifths, whole));
    evidence.push_back("sixth: " + form_of(weights, tonic + 9, fifths, whole) + ", " + form_of(weights, tonic + 8, fifths, whole));
    evidence.push_back("seventh: " + form_of(weights, tonic + 11, fifths, whole) + ", " + form_of(weights, tonic + 10, fifths, whole));
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
        const ModeFinding modes = find_modes(above(weights, tonic));
        for (const Mode mode : modes.modes) finding.candidates.push_back({music::spell(tonic, fifths), mode});
        return modes.decided;
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
