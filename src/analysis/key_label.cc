// The label is compared with every key the notes leave open, so it is only doubted when none of them is it. Tunes that
// run on into their own beginning end away from home, and a double tonic is heard both ways: another tonic is believed
// only where the tune ends on it, leans on it far more than on the label's, and neither begins nor ends a part on the
// label's. That the finder is sure is not enough: of eleven tunes it would add in two books some four are labelled
// right. Tested by key_label_test.cc, and read by eye on two published collections.
#include "analysis/key_label.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/note_uses.h"
#include "analysis/tune_end.h"

namespace analysis {

namespace {

using music::Key;

// Shorter tunes say too little of their key. Source: house choice, two bars of quavers.
constexpr int kFewestNotes = 16;

// A passing note or two are no reason to doubt a mode. Source: house choice.
constexpr int kFewestOutside = 3;

// Another tonic than the label's stands on so many times as many strong beats, or is not believed. Source: house
// choice; with less, half of the tunes doubted were only ending away from home.
constexpr int kMuchOftener = 2;

// Notes outside the label are often when at least one in so many. Source: house choice.
constexpr int kOftenOneIn = 20;

constexpr std::size_t kMostNamed = 3;  // keys the notes leave open; more are nothing to go by

// At the tune where no K: is in force.
base::Span place_of_key(const tune::Setting& setting) {
    return setting.key_where.value_or(base::Span{setting.where.begin, setting.where.begin});
}

bool is_one_key(const music::Melody& melody) {
    return std::all_of(melody.keys.begin(), melody.keys.end(), [&](const music::KeyChange& change) {
        return change.key == melody.keys.front().key && change.signature == melody.keys.front().signature;
    });
}

// `D =c` is D mixolydian in all but name.
bool is_meant(const Key& candidate, const Key& label, const music::Signature& signature) {
    if (candidate.tonic.pitch_class() != label.tonic.pitch_class()) return false;
    return candidate.mode == label.mode || music::signature_of_fifths(candidate.signature_fifths()) == signature;
}

bool holds(const Key& key, int pitch_class) {
    const auto& steps = music::mode_semitones(key.mode);
    return std::find(steps.begin(), steps.end(), (pitch_class - key.tonic.pitch_class() + 12) % 12) != steps.end();
}

// The seventh is raised in minor tunes without making another mode of them (harmonic and melodic minor).
bool takes(const Key& key, int pitch_class) {
    const bool is_minor = key.mode == music::Mode::minor || key.mode == music::Mode::dorian;
    return holds(key, pitch_class) || (is_minor && (pitch_class - key.tonic.pitch_class() + 12) % 12 == 11);
}

int sounds(const tune::TuneFacts& facts, int pitch_class) {
    int count = 0;
    for (const tune::NoteUse& use : facts.uses)
        if (use.midi % 12 == pitch_class) count += use.count;
    return count;
}

// Notes of one key that another has not, by pitch class.
using Outside = std::array<int, 12>;

// Only where the degree sounds as `found` has it more often than as the label has it.
Outside count_outside(const tune::TuneFacts& facts, const Key& label, const Key& found) {
    Outside outside{};
    for (int note = 0; note < 12; ++note) {
        if (!holds(found, note) || takes(label, note)) continue;
        int other_form = 0;
        for (const int beside : {(note + 1) % 12, (note + 11) % 12})
            if (holds(label, beside) && !holds(found, beside)) other_form += sounds(facts, beside);
        if (const int count = sounds(facts, note); count > other_form) outside[static_cast<std::size_t>(note)] = count;
    }
    return outside;
}

// Notes that are foreign to a key.
int unexplained(const tune::TuneFacts& facts, const Key& key) {
    int count = 0;
    for (int note = 0; note < 12; ++note)
        if (!takes(key, note)) count += sounds(facts, note);
    return count;
}

int sum_of(const Outside& outside) { return std::accumulate(outside.begin(), outside.end(), 0); }

int strong_beats(const tune::TuneFacts& facts, const music::NoteName& name) {
    int strong = 0;
    for (const tune::NoteUse& use : facts.uses)
        if (use.midi % 12 == name.pitch_class()) strong += use.strong;
    return strong;
}

bool ends_on(const tune::TuneFacts& facts, const music::NoteName& name) {
    return facts.last_note && *facts.last_note % 12 == name.pitch_class();
}

// A short note off the beat behind a longer one leads back into the tune, pick-up or not: `A2 c |]` ends on A.
bool ends_with_lead_back(const music::Melody& melody) {
    const music::Sound* last = nullptr;
    const music::Sound* before = nullptr;
    const std::size_t end = find_tune_end(melody);
    for (std::size_t at = 0; at < end; ++at) {
        if (melody.sounds[at].kind != music::Sound::Kind::note) continue;
        before = last;
        last = &melody.sounds[at];
    }
    return before != nullptr && last->bar == before->bar && last->length < before->length &&
           !stands_strong(melody, *last);
}

// Lydian, phrygian and locrian mostly come of a tune that ends away from home. Source: common practice, no source.
bool is_common(music::Mode mode) {
    return mode == music::Mode::major || mode == music::Mode::minor || mode == music::Mode::dorian ||
           mode == music::Mode::mixolydian;
}

bool a_part_ends_on(const music::Melody& melody, const music::NoteName& name) {
    for (const music::Sound& sound : melody.sounds) {
        const music::Bar& bar = melody.bars[sound.bar];
        const auto next = static_cast<std::size_t>(&sound - melody.sounds.data()) + 1;
        const bool ends_bar = next == melody.sounds.size() || melody.sounds[next].bar != sound.bar;
        if (!ends_bar || (!bar.repeat_closes && !bar.thick_after) || sound.kind != music::Sound::Kind::note) continue;
        if (top_note(melody, sound) % 12 == name.pitch_class()) return true;
    }
    return false;
}

// On the first beat of the first whole bar.
bool begins_on(const music::Melody& melody, const music::NoteName& name) {
    for (const music::Sound& sound : melody.sounds)
        if (sound.kind == music::Sound::Kind::note && !is_pickup(melody, sound.bar))
            return top_note(melody, sound) % 12 == name.pitch_class();
    return false;
}

// What speaks for another tonic than the label's.
bool leads_elsewhere(const tune::Setting& setting, const tune::TuneFacts& facts, const Key& found) {
    const Key& label = setting.key_in_force.key;
    const music::NoteName& stated = label.tonic;
    return ends_on(facts, found.tonic) && !ends_with_lead_back(setting.melody) && is_common(found.mode) &&
           strong_beats(facts, found.tonic) >= kMuchOftener * strong_beats(facts, stated) &&
           sounds(facts, found.tonic.pitch_class()) > sounds(facts, stated.pitch_class()) &&
           unexplained(facts, found) <= unexplained(facts, label) && !a_part_ends_on(setting.melody, stated) &&
           !begins_on(setting.melody, stated);
}

// `A dorian or minor`, `G major, A dorian, E minor and others`.
std::string in_words(const std::vector<Key>& candidates) {
    const std::size_t named = std::min(candidates.size(), kMostNamed);
    std::string words;
    for (std::size_t at = 0; at < named; ++at) {
        const bool same_tonic = at > 0 && candidates[at].tonic == candidates[at - 1].tonic;
        const bool is_last = at + 1 == candidates.size();
        words += at == 0 ? "" : is_last ? " or " : ", ";
        words += same_tonic ? std::string(music::mode_token(candidates[at].mode)) : music::to_string(candidates[at]);
    }
    return words + (named < candidates.size() ? " and others" : "");
}

// What speaks loudest: the last note, and the note outside the label that sounds most.
std::string reasons(const tune::TuneFacts& facts, const Key& label, const Key& found, const Outside& outside) {
    std::string words;
    if (ends_on(facts, found.tonic) && found.tonic.pitch_class() != label.tonic.pitch_class())
        words = "the last note is " + music::to_string(found.tonic);
    const auto most = std::max_element(outside.begin(), outside.end());
    if (*most > 0) {
        const auto name =
            music::spell(static_cast<int>(most - outside.begin()), std::clamp(found.signature_fifths(), -7, 7));
        words += (words.empty() ? "" : ", and ") + music::to_string(name) +
                 (*most == 1 ? " sounds once" : " sounds " + std::to_string(*most) + " times") + ", which " +
                 music::to_string(label) + " has not";
    }
    return words.empty() ? "" : ": " + words;
}

// As K: has it: `Ador`, `Em`, `G`.
std::string as_field(const Key& key) {
    const std::string_view mode = music::mode_token(key.mode);
    const std::string_view shortened = key.mode == music::Mode::major   ? ""
                                       : key.mode == music::Mode::minor ? "m"
                                                                        : mode.substr(0, 3);
    return "K:" + music::to_string(key.tonic) + std::string(shortened);
}

}  // namespace

std::optional<tune::Oddity> find_key_label_oddity(const tune::Setting& setting, const tune::TuneFacts& facts) {
    if (setting.key_in_force.kind != music::StatedKey::Kind::tonic_and_mode || !facts.key ||
        facts.key->candidates.empty())
        return std::nullopt;
    if (facts.note_count < kFewestNotes || setting.melody.keys.empty() || !is_one_key(setting.melody))
        return std::nullopt;
    const Key& label = setting.key_in_force.key;
    const music::Signature& signature = setting.melody.keys.front().signature;
    const std::vector<Key>& candidates = facts.key->candidates;
    if (std::any_of(candidates.begin(), candidates.end(),
                    [&](const Key& key) { return is_meant(key, label, signature); }))
        return std::nullopt;
    const auto home = std::find_if(candidates.begin(), candidates.end(), [&](const Key& key) {
        return key.tonic.pitch_class() == label.tonic.pitch_class();
    });
    const Key& found = home == candidates.end() ? candidates.front() : *home;
    const Outside by_class = count_outside(facts, label, found);
    const int outside = sum_of(by_class);
    if (home != candidates.end() && outside < kFewestOutside) return std::nullopt;
    if (home == candidates.end() && !leads_elsewhere(setting, facts, found)) return std::nullopt;
    const bool is_often = outside * kOftenOneIn >= facts.note_count;
    const bool keeps_signature = music::signature_of_fifths(found.signature_fifths()) == signature;
    tune::Oddity oddity{tune::OddityKind::key_label,
                        is_often ? base::Severity::warning : base::Severity::remark,
                        place_of_key(setting),
                        {},
                        {}};
    oddity.message = "Labelled " + music::to_string(setting.key_in_force) + ", but the notes speak for " +
                     in_words(facts.key->decided ? std::vector<Key>{candidates.front()} : candidates) +
                     reasons(facts, label, found, by_class) + ".";
    oddity.advice = keeps_signature ? as_field(found) + " keeps the same signature, so that no note changes."
                                    : std::string(tune::oddity_advice(tune::OddityKind::key_label));
    return oddity;
}

}  // namespace analysis
