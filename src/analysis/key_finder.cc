// Tonic: the fitted model of key_model.h gives every key a probability; the tonic with the greatest sum over its modes
// is the home note. Mode: every mode that no degree speaks against is a candidate; a degree that never sounds, or
// sounds both ways, speaks against none. One mode left on a tonic that stands clear of the others is an answer, all
// else is undecided. Tested by key_finder_test.cc; measured by tests/keys.
#include "analysis/key_finder.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "analysis/under_key.h"

namespace analysis {

namespace {

using music::Mode;
using ByMode = std::array<double, music::kModes.size()>;

// A rival tonic of at least this probability is named. Source: house choice, measured by tests/keys: the label is then
// among the candidates in 19 of 20 tunes and more, with fewer than two candidates.
constexpr double kNamedRival = 0.1;

// Of two tonics of which the second is this nearly as likely, the one the tune ends on goes first. Source: house
// choice; the last note is the surest single sign (common practice, no source), and the figures of tests/keys move by
// 0.1 at most.
constexpr double kAboutAsLikely = 0.8;

// A tonic of less probability than this is no answer. Source: house choice, measured as above.
constexpr double kClearTonic = 0.6;

// Of a degree that sounds both ways, a form with less than this share is passing. Source: house choice.
constexpr double kPassingShare = 0.1;

// The same of a high third in a tune that raises its seventh too: both lead up by a semitone, and the tune is minor.
// Source: house choice; as harmonic and melodic minor are taught (common practice, no source), seen in two airs of
// O'Neill's, which the weights are fitted to.
constexpr double kPassingThird = 0.2;

// What K: says stays possible unless the notes are surer than this of another home note and, where its scale is
// another, so many of them are not in it. Source: house choices, made on O'Neill's, Aird's books 1 and 2 and two thirds
// of Ryan's by tests/keys.
constexpr double kSureTonic = 0.95;
constexpr double kFewestHeard = 3;

// Source: house choice; a scale in eight bars that sounds each degree once or twice says its mode.
constexpr double kPassingOneIn = 40;

// A home note of less probability is no candidate, whoever says so. Source: house choice.
constexpr double kNoChance = 0.002;

struct Tonic {
    int pitch_class = 0;
    double probability = 0;
    ByMode scores{};
};

// Likeliest first, but for kAboutAsLikely.
std::vector<Tonic> rank_tonics(const KeyEvidence& evidence, const KeyModel& model) {
    const KeyScores scores = score_keys(evidence, model);
    double best = scores[0][0];
    for (const auto& of_mode : scores) best = std::max(best, *std::max_element(of_mode.begin(), of_mode.end()));
    std::vector<Tonic> tonics(12);
    double whole = 0;
    for (std::size_t tonic = 0; tonic < 12; ++tonic) {
        tonics[tonic].pitch_class = static_cast<int>(tonic);
        for (std::size_t mode = 0; mode < scores.size(); ++mode) {
            tonics[tonic].scores[mode] = scores[mode][tonic];
            tonics[tonic].probability += std::exp(scores[mode][tonic] - best);
        }
        whole += tonics[tonic].probability;
    }
    for (Tonic& tonic : tonics) tonic.probability /= whole;
    std::stable_sort(tonics.begin(), tonics.end(),
                     [](const Tonic& a, const Tonic& b) { return a.probability > b.probability; });
    const bool ends_on_second = tonics[1].pitch_class == evidence.last_note % 12;
    if (ends_on_second && tonics[1].probability >= kAboutAsLikely * tonics[0].probability)
        std::swap(tonics[0], tonics[1]);
    return tonics;
}

ByDegree above(const ByPitchClass& weights, int tonic) {
    ByDegree turned{};
    for (int step = 0; step < 12; ++step)
        turned[static_cast<std::size_t>(step)] = weights[static_cast<std::size_t>((tonic + step) % 12)];
    return turned;
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
constexpr std::array<DegreeForms, 6> kDegrees{{{"second", 1, 1, 2},
                                               {"third", 2, 3, 4},
                                               {"fourth", 3, 5, 6},
                                               {"fifth", 4, 6, 7},
                                               {"sixth", 5, 8, 9},
                                               {"seventh", 6, 10, 11}}};

Degree degree_of(const ByDegree& above_tonic, const DegreeForms& forms) {
    return {above_tonic[static_cast<std::size_t>(forms.low)], above_tonic[static_cast<std::size_t>(forms.high)]};
}

bool has_high(Mode mode, const DegreeForms& forms) {
    return music::mode_semitones(mode)[static_cast<std::size_t>(forms.letters)] == forms.high;
}

// Lydian, phrygian and locrian are rare: they are named only where the degree that makes them is heard. Source: common
// practice, no source.
bool is_heard(Mode mode, const DegreeForms& forms, const Degree& degree) {
    const bool makes_it = (mode == Mode::lydian && forms.letters == 3) ||
                          (mode == Mode::phrygian && forms.letters == 1) ||
                          (mode == Mode::locrian && forms.letters == 4);
    return !makes_it || degree.is_decided();
}

// A minor tune may raise its seventh all through (harmonic and melodic minor): that is an inflection and makes no other
// mode.
bool takes_raised_seventh(Mode mode, const DegreeForms& forms, const Degree& degree) {
    return forms.letters == 6 && degree.is_high() && (mode == Mode::minor || mode == Mode::dorian);
}

// A low third beside a high one that passes, as a raised seventh does.
bool is_minor_third(const ByDegree& above_tonic, const DegreeForms& forms, const Degree& degree) {
    const bool raises_seventh = above_tonic[11] > 0;
    return forms.letters == 2 && raises_seventh && degree.low > 0 &&
           degree.high <= kPassingThird * (degree.low + degree.high);
}

// A raised fourth and a lowered second or fifth make the rare modes; a note or two of them beside no other form, in a
// tune of many notes, are neighbours of the fifth and the home note, and decide nothing. In a few bars they do.
bool is_passing_alone(const DegreeForms& forms, const Degree& notes, double all_notes) {
    const auto is_seldom = [&](double number) { return number < kFewestHeard && number * kPassingOneIn < all_notes; };
    if (forms.letters == 3) return notes.low <= 0 && is_seldom(notes.high);
    if (forms.letters == 1 || forms.letters == 4) return notes.high <= 0 && is_seldom(notes.low);
    return false;
}

// The modes that no decided degree speaks against, likeliest first. `notes` counts what `above_tonic` has shares of.
std::vector<Mode> find_modes(const ByDegree& above_tonic, const ByDegree& notes, const ByMode& scores) {
    const double all_notes = std::accumulate(notes.begin(), notes.end(), 0.0);
    const auto is_allowed = [&](Mode mode) {
        return std::all_of(kDegrees.begin(), kDegrees.end(), [&](const DegreeForms& forms) {
            Degree degree = degree_of(above_tonic, forms);
            if (is_passing_alone(forms, degree_of(notes, forms), all_notes)) degree = {};
            const bool is_minor = is_minor_third(above_tonic, forms, degree);
            return is_heard(mode, forms, degree) &&
                   ((!degree.is_decided() && !is_minor) || degree.is_high() == has_high(mode, forms) ||
                    takes_raised_seventh(mode, forms, degree));
        });
    };
    std::vector<Mode> ranked(music::kModes.begin(), music::kModes.end());
    const auto score = [&](Mode mode) { return scores[static_cast<std::size_t>(mode)]; };
    std::stable_sort(ranked.begin(), ranked.end(), [&](Mode a, Mode b) { return score(a) > score(b); });
    std::vector<Mode> allowed;
    std::copy_if(ranked.begin(), ranked.end(), std::back_inserter(allowed), is_allowed);
    if (allowed.empty()) allowed.push_back(ranked.front());  // no mode has these degrees: the likeliest all the same
    return allowed;
}

std::string per_cent(double part, double whole) {
    return std::to_string(static_cast<int>(std::lround(100 * part / whole))) + " %";
}

// `C# 4 %` or `C# never`; spelled by the letter of its degree.
std::string form_of(const ByDegree& above_tonic, music::NoteName tonic, int letters, int semitones, double whole) {
    music::NoteName name{static_cast<music::Letter>((static_cast<int>(tonic.letter) + letters) % music::kLetters), 0};
    const int off = (tonic.pitch_class() + semitones - name.pitch_class() + 18) % 12 - 6;
    name.accidental = static_cast<std::int8_t>(off);
    const double part = above_tonic[static_cast<std::size_t>(semitones)];
    return music::to_string(name) + (part > 0 ? " " + per_cent(part, whole) : " never");
}

// `A 40 %, E 21 %`: the names that hold most of it.
std::string leaders(const ByPitchClass& shares, int fifths) {
    constexpr int kNamed = 2;
    std::array<int, 12> order{};
    std::iota(order.begin(), order.end(), 0);
    const auto share = [&](int name) { return shares[static_cast<std::size_t>(name)]; };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return share(a) > share(b); });
    std::string words;
    for (int at = 0; at < kNamed && share(order[static_cast<std::size_t>(at)]) > 0; ++at) {
        const int name = order[static_cast<std::size_t>(at)];
        words +=
            (words.empty() ? "" : ", ") + music::to_string(music::spell(name, fifths)) + " " + per_cent(share(name), 1);
    }
    return words;
}

std::vector<std::string> evidence_for(const KeyEvidence& evidence, music::NoteName home, int fifths) {
    std::vector<std::string> words;
    words.push_back("last note " + music::to_string(music::spell_midi(evidence.last_note, fifths)));
    if (evidence.last_strong_note != evidence.last_note)
        words.push_back("last strong beat " + music::to_string(music::spell_midi(evidence.last_strong_note, fifths)));
    words.push_back(std::to_string(evidence.names) + (evidence.names == 1 ? " note name sounds" : " note names sound"));
    const ByDegree above_tonic = above(evidence.time, home.pitch_class());
    if (above_tonic[0] > 0)
        words.push_back(music::to_string(home) + " fills " + per_cent(above_tonic[0], 1) + " of the time");
    if (const std::string strong = leaders(evidence.strong_time, fifths); !strong.empty())
        words.push_back("strong beats: " + strong);
    for (const DegreeForms& forms : kDegrees) {
        if (forms.letters == 4) continue;  // the fifth tells only locrian apart
        if (degree_of(above_tonic, forms).is_silent()) {
            words.push_back("no " + std::string(forms.name));
            continue;
        }
        words.push_back(std::string(forms.name) + ": " + form_of(above_tonic, home, forms.letters, forms.high, 1) +
                        ", " + form_of(above_tonic, home, forms.letters, forms.low, 1));
    }
    return words;
}

// Nothing where K: states no signature.
std::optional<int> spelling_of(const music::Melody& melody) {
    if (melody.keys.empty()) return std::nullopt;
    const music::StatedKey& stated = melody.keys.front().key;
    if (stated.kind == music::StatedKey::Kind::highland_pipes) return 2;
    if (stated.kind != music::StatedKey::Kind::tonic_and_mode) return std::nullopt;
    return std::clamp(stated.key.signature_fifths(), -7, 7);
}

// The tonic whose key has fewest signs, for tunes without a signature: Ab major, not G# major.
music::NoteName simplest_tonic(int pitch_class, Mode mode) {
    music::NoteName best = music::spell(pitch_class, 0);
    for (const int fifths : {-7, 7}) {
        const music::NoteName other = music::spell(pitch_class, fifths);
        const auto signs = [&](const music::NoteName& name) {
            return std::abs(music::Key{name, mode}.signature_fifths());
        };
        if (signs(other) < signs(best)) best = other;
    }
    return best;
}

}  // namespace

namespace {

// What the notes say, with what it was worked out from.
struct Weighed {
    KeyEvidence evidence;
    std::vector<Tonic> tonics;
    tune::KeyFinding finding;
};

std::optional<Weighed> weigh_all(const music::Melody& whole, const KeyModel& model) {
    const std::vector<music::KeyChange> turns = keys_in_turn(whole);
    const bool changes_key = turns.size() > 1;
    const music::Melody under = changes_key ? under_key(whole, turns.front()) : music::Melody{};
    const music::Melody& melody = changes_key ? under : whole;
    const std::optional<KeyEvidence> evidence = find_key_evidence(melody);
    if (!evidence) return std::nullopt;
    Weighed weighed{*evidence, rank_tonics(*evidence, model), {}};
    const std::optional<int> stated = spelling_of(melody);
    const auto key_of = [&](int tonic, Mode mode) {
        return music::Key{stated ? music::spell(tonic, *stated) : simplest_tonic(tonic, mode), mode};
    };
    tune::KeyFinding& finding = weighed.finding;
    for (const Tonic& tonic : weighed.tonics) {
        const bool is_first = tonic.pitch_class == weighed.tonics.front().pitch_class;
        if (!is_first && tonic.probability < kNamedRival) break;
        const std::vector<Mode> modes = find_modes(above(evidence->time, tonic.pitch_class),
                                                   above(evidence->counts, tonic.pitch_class), tonic.scores);
        if (is_first) finding.decided = modes.size() == 1 && tonic.probability >= kClearTonic;
        for (const Mode mode : modes) finding.candidates.push_back(key_of(tonic.pitch_class, mode));
    }
    const music::Key& likeliest = finding.candidates.front();
    finding.evidence =
        evidence_for(*evidence, likeliest.tonic, stated.value_or(std::clamp(likeliest.signature_fifths(), -7, 7)));
    if (changes_key) finding.evidence.insert(finding.evidence.begin(), "by the notes under the first K: alone");
    return weighed;
}

bool are_one(const music::Key& a, const music::Key& b) {
    return a.tonic.pitch_class() == b.tonic.pitch_class() && a.mode == b.mode;
}

// How many notes sound of a degree's other form than `key` has: the most of any degree.
double notes_against(const KeyEvidence& evidence, const music::Key& key) {
    const ByDegree counts = above(evidence.counts, key.tonic.pitch_class());
    double most = 0;
    for (const DegreeForms& forms : kDegrees) {
        const Degree degree = degree_of(counts, forms);
        if (takes_raised_seventh(key.mode, forms, degree) ||
            (!has_high(key.mode, forms) && is_minor_third(counts, forms, degree)))
            continue;
        most = std::max(most, has_high(key.mode, forms) ? degree.low : degree.high);
    }
    return most;
}

// Whether the notes that decide rule out what K: says: they need to be sure of the home note and of the mode.
bool rule_out(const Weighed& weighed, const music::Key& meant) {
    const music::Key& found = weighed.finding.candidates.front();
    const bool is_mode_sure = notes_against(weighed.evidence, meant) >= kFewestHeard;
    if (found.tonic.pitch_class() == meant.tonic.pitch_class()) return is_mode_sure;
    const auto its = std::find_if(weighed.tonics.begin(), weighed.tonics.end(),
                                  [&](const Tonic& tonic) { return tonic.pitch_class == meant.tonic.pitch_class(); });
    if (its->probability < kNoChance) return true;
    const bool has_same_notes = found.signature_fifths() == meant.signature_fifths();
    return weighed.tonics.front().probability >= kSureTonic && (has_same_notes || is_mode_sure);
}

}  // namespace

music::Key meant_key(const music::StatedKey& stated, const music::Melody& melody) {
    music::Key key = stated.key;
    if (melody.keys.empty() || melody.keys.front().signature == music::signature_of_fifths(key.signature_fifths()))
        return key;
    for (const Mode mode : music::kModes)
        if (music::signature_of_fifths(music::Key{key.tonic, mode}.signature_fifths()) == melody.keys.front().signature)
            key.mode = mode;
    return key;
}

std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const KeyModel& model) {
    std::optional<Weighed> weighed = weigh_all(melody, model);
    if (!weighed) return std::nullopt;
    return std::move(weighed->finding);
}

std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const music::StatedKey& stated,
                                         const KeyModel& model) {
    std::optional<Weighed> weighed = weigh_all(melody, model);
    if (!weighed) return std::nullopt;
    tune::KeyFinding& finding = weighed->finding;
    if (stated.kind != music::StatedKey::Kind::tonic_and_mode) return std::move(finding);
    const music::Key meant = meant_key(stated, melody);
    const bool is_candidate = std::any_of(finding.candidates.begin(), finding.candidates.end(),
                                          [&](const music::Key& key) { return are_one(key, meant); });
    if (finding.decided && are_one(finding.candidates.front(), meant)) return std::move(finding);
    if (!is_candidate && rule_out(*weighed, meant)) {
        const auto at_home =
            std::find_if(finding.candidates.begin(), finding.candidates.end(),
                         [&](const music::Key& key) { return key.tonic.pitch_class() == meant.tonic.pitch_class(); });
        if (finding.decided || at_home == finding.candidates.end()) return std::move(finding);
        finding.stated = *at_home;
        finding.evidence.push_back("the notes leave the home note open, and K: says " + music::to_string(meant.tonic));
        return std::move(finding);
    }
    if (!is_candidate) finding.candidates.push_back(meant);
    finding.decided = false;
    finding.stated = meant;
    const bool is_mode_open = std::all_of(finding.candidates.begin(), finding.candidates.end(), [&](const auto& key) {
        return key.tonic.pitch_class() == meant.tonic.pitch_class();
    });
    finding.evidence.push_back(
        is_mode_open ? "the notes leave the mode open, and K: says " + std::string(music::mode_token(meant.mode))
                     : "the notes leave the home note open, and K: says " + music::to_string(meant));
    return std::move(finding);
}

}  // namespace analysis
