#include "abc/sounds_moved.h"

#include <algorithm>
#include <array>

namespace abc {

namespace {

bool same_sounds(const music::Melody& before, const music::Melody& after) {
    return std::equal(before.sounds.begin(), before.sounds.end(), after.sounds.begin(), after.sounds.end(),
                      [](const music::Sound& a, const music::Sound& b) {
                          return a.kind == b.kind && a.head_count == b.head_count && a.first_head == b.first_head &&
                                 a.bar == b.bar && a.length == b.length && a.at == b.at;
                      });
}

bool same_bars(const music::Melody& before, const music::Melody& after) {
    return std::equal(before.bars.begin(), before.bars.end(), after.bars.begin(), after.bars.end(),
                      [](const music::Bar& a, const music::Bar& b) {
                          return a.first_sound == b.first_sound && a.length == b.length && a.meter == b.meter &&
                                 a.unit_rests == b.unit_rests && a.repeat_opens == b.repeat_opens &&
                                 a.repeat_closes == b.repeat_closes && a.thick_after == b.thick_after &&
                                 a.ending == b.ending;
                      });
}

int in_octave(int semitones) { return ((semitones % 12) + 12) % 12; }

// What a signature makes of the seven letters, by pitch class.
std::array<int, 12> sounding(const music::Signature& signature, int semitones) {
    std::array<int, 12> letters{};
    for (std::size_t letter = 0; letter < signature.size(); ++letter)
        ++letters[static_cast<std::size_t>(
            in_octave(music::kNaturalSemitones[letter] + signature[letter] + semitones))];
    return letters;
}

// No signature stays none. The pipes' key names no tonic; moved it is one of tonic and mode.
bool key_moved(const music::KeyChange& before, const music::KeyChange& after, int semitones) {
    using Kind = music::StatedKey::Kind;
    const bool has_tonic = before.key.kind == Kind::tonic_and_mode || before.key.kind == Kind::explicit_accidentals;
    const bool is_same_kind = before.key.kind == after.key.kind && before.key.key.mode == after.key.key.mode;
    if (before.key.kind != Kind::highland_pipes && !is_same_kind) return false;
    if (has_tonic && in_octave(before.key.key.tonic.pitch_class() + semitones) != after.key.key.tonic.pitch_class())
        return false;
    const bool has_no_signature = before.key.kind == Kind::none && before.signature == music::Signature{};
    if (has_no_signature) return before.before_sound == after.before_sound && after.signature == music::Signature{};
    return before.before_sound == after.before_sound &&
           sounding(before.signature, semitones) == sounding(after.signature, 0);
}

bool melody_moved(const music::Melody& before, const music::Melody& after, int semitones) {
    return same_sounds(before, after) && same_bars(before, after) &&
           std::equal(
               before.keys.begin(), before.keys.end(), after.keys.begin(), after.keys.end(),
               [&](const music::KeyChange& a, const music::KeyChange& b) { return key_moved(a, b, semitones); }) &&
           std::equal(before.heads.begin(), before.heads.end(), after.heads.begin(), after.heads.end(),
                      [&](const music::NoteHead& a, const music::NoteHead& b) {
                          return a.midi + semitones == b.midi && a.is_tied == b.is_tied;
                      });
}

}  // namespace

bool sounds_moved(const tune::Setting& before, const tune::Setting& after, int semitones) {
    return before.number == after.number && before.titles == after.titles && before.rhythm == after.rhythm &&
           before.texts == after.texts && before.part_order == after.part_order && before.meter == after.meter &&
           before.unit == after.unit && melody_moved(before.melody, after.melody, semitones) &&
           std::equal(before.others.begin(), before.others.end(), after.others.begin(), after.others.end(),
                      [&](const tune::OtherVoice& a, const tune::OtherVoice& b) {
                          return a.id == b.id && melody_moved(a.melody, b.melody, semitones);
                      });
}

}  // namespace abc
