// A phrase somebody has in the ear: notes typed to find a tune by.
#pragma once

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace analysis {

// Why a text is no phrase to look for, in one sentence for the person who wrote it, with the column (from 1, in code
// points).
class HeardFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Source: house choice; two notes are in every tune, and 64 fill the word the search works with.
constexpr std::size_t kFewestHeard = 3;
constexpr std::size_t kMostHeard = 64;

struct Heard {
    // 0..11, C is 0; no two neighbours equal; kFewestHeard to kMostHeard of them.
    std::vector<std::uint8_t> pitch_classes;

    // Every note as it was typed, MIDI numbers. Octaves are those of ABC or of the numbers; a phrase all in one octave
    // of letters without any sign of octaves tells none.
    std::vector<int> notes;
    bool tells_octaves = false;

    friend bool operator==(const Heard&, const Heard&) = default;
};

// Notes as in ABC (`G A B d e`, `GABde`, `^c`, `_b`, `=f`, `g'`, `D,`) or by name (`G4 A4 F#5`, `Bb`), with blanks, bar
// lines `|` or nothing between. Length does not count, so a number behind a note is read as octave or length; the
// octave and a note played again only break ties (`notes`). `Bb` could be B and b of ABC or B flat: a text is read as
// names where a sharp or flat sign (# or the printed one) or a number stands in it, else as ABC. In names a small b
// right behind a letter is a flat. Throws HeardFault.
Heard read_heard(std::string_view text);

// The ways a phrase of plain letters may be meant: as it stands, and with the signs of one to three sharps, then one to
// three flats, where they change a note of it. A musician who types `D F A` of a tune in D hears F sharp. One alone
// where the text has a sign of its own.
std::vector<Heard> readings_of(std::string_view text);

}  // namespace analysis
