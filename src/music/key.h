// Modes, keys and the signatures they print.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "music/pitch.h"

namespace music {

// Each with the semitones of its degrees. Source: ABC standard 2.1, section 3.1.14, by its table of signatures.
enum class Mode : std::uint8_t { major, dorian, phrygian, lydian, mixolydian, minor, locrian };

constexpr std::array<Mode, 7> kModes{Mode::major,      Mode::dorian, Mode::phrygian, Mode::lydian,
                                     Mode::mixolydian, Mode::minor,  Mode::locrian};

// `major`, `dorian`, ...: used by SQL, JSON, CSV and the command line alike.
std::string_view mode_token(Mode mode) noexcept;
// A token, `ionian`, `aeolian`, or the standard's abbreviations in any case: the first three letters count, `m` is
// minor.
std::optional<Mode> parse_mode(std::string_view text);

// Ascending from the tonic, seven degrees.
const std::array<int, 7>& mode_semitones(Mode mode) noexcept;

// Tonic and mode.
struct Key {
    NoteName tonic;
    Mode mode = Mode::major;

    // Sharps of its signature, negative for flats; beyond 7 where double signs would be needed.
    int signature_fifths() const noexcept;

    friend bool operator==(const Key&, const Key&) = default;
};

std::string to_string(const Key& key);  // `A dorian`
// As a person writes one: `Em`, `E minor`, `F# dorian`, `Bbmix`, `A:dorian`, `G`; a letter alone is major.
std::optional<Key> parse_key(std::string_view written);

// The same mode, its tonic so many semitones higher, spelled with the fewest sharps or flats; of F# and Gb the one of
// the kind `key` has, F# for none.
Key moved(const Key& key, int semitones) noexcept;
// The same of a signature in sharps, negative for flats: -6 to 6.
int moved_fifths(int fifths, int semitones) noexcept;

// The accidental each letter carries, indexed by Letter.
using Signature = std::array<std::int8_t, kLetters>;
Signature signature_of_fifths(int fifths) noexcept;

// What `K:` says. `written_mode` keeps `ionian` and `aeolian` apart from `major` and `minor`.
struct StatedKey {
    enum class Kind : std::uint8_t { none, tonic_and_mode, explicit_accidentals, highland_pipes };

    Kind kind = Kind::none;
    Key key;                                  // with tonic_and_mode; the tonic alone with explicit_accidentals
    std::string_view written_mode = "major";  // static storage

    friend bool operator==(const StatedKey&, const StatedKey&) = default;
};

// `D major`, `A explicit`, `highland-pipes`, `none`.
std::string to_string(const StatedKey& key);
std::optional<StatedKey> parse_stated_key(std::string_view text);  // what to_string wrote
std::optional<Key> key_stated_in(std::string_view text);           // the same, where it is a tonic and a mode

}  // namespace music
