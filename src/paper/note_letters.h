// A note's name as it is drawn: capital letters or fixed do, with a drawn sharp or flat and dots for the octave.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "paper/ink.h"

namespace paper {

enum class Names : std::uint8_t { letters, fixed_do, none };

std::optional<Names> parse_names(std::string_view token);  // `letters`, `fixed-do`, `none`

struct NoteLetters {
    std::string name;    // `C`, `do`; empty where no name is wanted
    int accidental = 0;  // semitones, as it is spelled
    int octave = 0;      // of what sounds: 0 from middle C to B, 1 high, 2 top, -1 low, -2 deep

    friend bool operator==(const NoteLetters&, const NoteLetters&) = default;
};

NoteLetters letters_of(int midi, int fifths, Names names);

// In mm, at a type size of `em`: a sharp stands behind the letter.
double width_of(const NoteLetters& letters, double em);

// About x, on the line y.
void draw(Drawing& drawing, const NoteLetters& letters, double x, double y, double em);
// Above or below the letters, where a note is not of the middle octave.
void draw_octave(Drawing& drawing, const NoteLetters& letters, double x, double y, double em);

// `high C sharp`, `C sharp`, `low A`; of fixed do `high do sharp`. With no names as with letters: words need one.
std::string in_words(int midi, int fifths, Names names);

// `low`, `high`, ...; empty in the middle octave.
std::string_view octave_word(int midi);

}  // namespace paper
