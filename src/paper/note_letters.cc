// Tested by note_letters_test.cc.
#include "paper/note_letters.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "music/pitch.h"

namespace paper {

namespace {

constexpr std::array<std::string_view, music::kLetters> kLetters{"C", "D", "E", "F", "G", "A", "B"};
// Source: fixed do of the Romance languages, common practice.
constexpr std::array<std::string_view, music::kLetters> kFixedDo{"do", "re", "mi", "fa", "sol", "la", "si"};

constexpr double kSharpHeight = 2.6;  // mm at least: a smaller one clots on a copy. Source: house choice
constexpr double kSharpWidth = 0.58, kFlatWidth = 0.46;  // of its height

// From the letter, mm: none in the smallest type, where blocks are narrow.
double gap_at(double em) { return em > 4.5 ? 0.25 : 0.05; }

double sign_height_at(double em) { return std::max(kSharpHeight, em * 0.5); }
double sign_width(int accidental, double em) {
    return std::abs(accidental) * sign_height_at(em) * (accidental > 0 ? kSharpWidth : kFlatWidth);
}

// From x to the right, standing on y.
void draw_sharp(Drawing& drawing, double x, double y, double height) {
    const double width = height * kSharpWidth;
    drawing.line(x + width * 0.3, y, x + width * 0.3, y - height * 0.94, 0.3);
    drawing.line(x + width * 0.7, y - height * 0.06, x + width * 0.7, y - height, 0.3);
    for (const double part : {0.36, 0.66})
        drawing.line(x, y - height * (part - 0.05), x + width, y - height * (part + 0.05), 0.45);
}

void draw_flat(Drawing& drawing, double x, double y, double height) {
    drawing.line(x + 0.2, y, x + 0.2, y - height, kThin);
    drawing.path("M" + number(x + 0.2) + " " + number(y) + "C" + number(x + height * 0.62) + " " +
                     number(y - height * 0.3) + " " + number(x + height * 0.38) + " " + number(y - height * 0.72) +
                     " " + number(x + 0.2) + " " + number(y - height * 0.42),
                 0.4);
}

int octave_of(int midi) { return std::clamp(midi / 12 - 5, -2, 2); }  // MIDI 60 is middle C

}  // namespace

std::optional<Names> parse_names(std::string_view token) {
    if (token == "letters") return Names::letters;
    if (token == "fixed-do") return Names::fixed_do;
    if (token == "none") return Names::none;
    return std::nullopt;
}

NoteLetters letters_of(int midi, int fifths, Names names) {
    const music::Pitch pitch = music::spell_midi(midi, fifths);
    const auto letter = static_cast<std::size_t>(pitch.name.letter);
    if (names == Names::none) return {"", 0, octave_of(midi)};
    return {std::string(names == Names::letters ? kLetters[letter] : kFixedDo[letter]), pitch.name.accidental,
            octave_of(midi)};
}

double width_of(const NoteLetters& letters, double em) {
    if (letters.name.empty()) return 0;
    const double sign = letters.accidental == 0 ? 0 : gap_at(em) + sign_width(letters.accidental, em);
    return em * width_of(letters.name, Weight::bold) + sign;
}

void draw(Drawing& drawing, const NoteLetters& letters, double x, double y, double em) {
    if (letters.name.empty()) return;
    const double left = x - width_of(letters, em) / 2;
    drawing.words(left, y, letters.name, em, Weight::bold);
    double sign = left + em * width_of(letters.name, Weight::bold) + gap_at(em);
    const double height = sign_height_at(em);
    for (int one = 0; one < std::abs(letters.accidental); ++one) {
        if (letters.accidental > 0)
            draw_sharp(drawing, sign, y - em * 0.73 + height, height);
        else
            draw_flat(drawing, sign, y - em * 0.73 + height, height);
        sign += sign_width(letters.accidental > 0 ? 1 : -1, em);
    }
}

void draw_octave(Drawing& drawing, const NoteLetters& letters, double x, double y, double em) {
    constexpr double kDot = 0.5;  // radius, mm
    const int dots = std::abs(letters.octave);
    const double middle =
        letters.name.empty() ? x : x - width_of(letters, em) / 2 + em * width_of(letters.name, Weight::bold) / 2;
    for (int dot = 0; dot < dots; ++dot)
        drawing.disc(middle + (dot - (dots - 1) / 2.0) * 1.7,
                     letters.octave > 0 ? y - em * 0.73 - 0.6 - kDot : y + 0.6 + kDot, kDot);
}

std::string_view octave_word(int midi) {
    constexpr std::array<std::string_view, 5> kWords{"deep", "low", "", "high", "top"};
    return kWords[static_cast<std::size_t>(octave_of(midi) + 2)];
}

std::string in_words(int midi, int fifths, Names names) {
    const NoteLetters letters = letters_of(midi, fifths, names == Names::none ? Names::letters : names);
    std::string words(octave_word(midi));
    words += (words.empty() ? "" : " ") + letters.name;
    for (int one = 0; one < std::abs(letters.accidental); ++one) words += letters.accidental > 0 ? " sharp" : " flat";
    return words;
}

}  // namespace paper
