// Pitches as they are spelled: F sharp is not G flat, though they sound alike.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace music {

// The letters in the order of the scale of C, as octaves are counted.
enum class Letter : std::uint8_t { C, D, E, F, G, A, B };

constexpr int kLetters = 7;

// Semitones of each natural above C. Source: the major scale; MIDI note numbers of ABC standard 2.1, section 4.1.
constexpr std::array<int, kLetters> kNaturalSemitones{0, 2, 4, 5, 7, 9, 11};

// A pitch without octave. `accidental` in semitones, -2 (double flat) to +2 (double sharp).
struct NoteName {
    Letter letter = Letter::C;
    std::int8_t accidental = 0;

    // 0 (C) to 11 (B): what sounds, whatever the spelling.
    int pitch_class() const noexcept {
        return (kNaturalSemitones[static_cast<std::size_t>(letter)] + accidental + 24) % 12;
    }

    friend bool operator==(const NoteName&, const NoteName&) = default;
};

// A pitch in scientific pitch notation: A4 is MIDI 69. `octave` is that of the letter: Cb4 sounds as B3.
struct Pitch {
    NoteName name;
    std::int8_t octave = 4;

    // May lie outside 0..127 for extreme octaves. Source: MIDI 1.0, middle C = 60 = C4.
    int midi() const noexcept {
        return 12 * (octave + 1) + kNaturalSemitones[static_cast<std::size_t>(name.letter)] + name.accidental;
    }

    friend bool operator==(const Pitch&, const Pitch&) = default;
};

// Of a sounding MIDI note, in Hz. Source: A4 = 440 Hz of ISO 16:1975; MIDI note 69 is A4 and twelve equal semitones
// make an octave by the MIDI tuning convention.
double hertz(int midi) noexcept;

inline bool same_sound(const Pitch& a, const Pitch& b) noexcept { return a.midi() == b.midi(); }

// How many fifths a name lies above C on the chain ... Bb F C G D ...
int fifths_above_c(NoteName name) noexcept;
NoteName name_at_fifths(int fifths) noexcept;  // -15 (Fbb) to 19 (B##)

// The name a sounding note takes beside a signature of `signature_fifths` sharps (negative: flats): the twelve names
// from three fifths below the signature's C to eight above. With no signature these are Eb Bb F C G D A E B F# C# G#.
// Source: house choice, the usual twelve of the chain of fifths.
NoteName spell(int pitch_class, int signature_fifths = 0) noexcept;
Pitch spell_midi(int midi, int signature_fifths = 0) noexcept;

// ASCII: `F#`, `Bb`, `C##`.
std::string to_string(NoteName name);
std::string to_string(const Pitch& pitch);

// `f#`, `Bb`, `C♯`, `E♭`: the whole text must be a name. ASCII `b` after the letter is a flat.
std::optional<NoteName> parse_note_name(std::string_view text);
// A name with an octave from -1 to 9 that sounds within MIDI 0..127.
std::optional<Pitch> parse_pitch(std::string_view text);

}  // namespace music
