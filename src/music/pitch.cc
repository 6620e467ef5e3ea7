#include "music/pitch.h"

#include <cmath>

namespace music {

namespace {

// Fifths of the naturals C D E F G A B.
constexpr std::array<int, kLetters> kLetterFifths{0, 2, 4, -1, 1, 3, 5};
// The naturals along the chain of fifths from F.
constexpr std::array<Letter, kLetters> kFifthsOrder{Letter::F, Letter::C, Letter::G, Letter::D,
                                                    Letter::A, Letter::E, Letter::B};

int floor_div(int a, int b) noexcept { return a / b - (a % b != 0 && (a % b < 0) != (b < 0) ? 1 : 0); }

// Reads the letter and its accidentals; the rest is left in `text`.
std::optional<NoteName> take_note_name(std::string_view& text) {
    constexpr std::string_view kLettersText = "CDEFGAB";
    if (text.empty()) return std::nullopt;
    const char letter = static_cast<char>(text[0] >= 'a' && text[0] <= 'z' ? text[0] - 'a' + 'A' : text[0]);
    const std::size_t index = kLettersText.find(letter);
    if (index == std::string_view::npos) return std::nullopt;
    text.remove_prefix(1);
    NoteName name{static_cast<Letter>(index), 0};
    while (!text.empty()) {
        int step = 0;
        std::size_t used = 1;
        if (text[0] == '#')
            step = 1;
        else if (text[0] == 'b')
            step = -1;
        else if (text.starts_with("\u266F"))
            step = 1, used = 3;
        else if (text.starts_with("\u266D"))
            step = -1, used = 3;
        else if (text.starts_with("\u266E"))
            used = 3;
        else
            break;
        if (name.accidental * step < 0) return std::nullopt;  // no note is sharp and flat at once
        name.accidental = static_cast<std::int8_t>(name.accidental + step);
        if (name.accidental > 2 || name.accidental < -2) return std::nullopt;
        text.remove_prefix(used);
    }
    return name;
}

}  // namespace

int fifths_above_c(NoteName name) noexcept {
    return kLetterFifths[static_cast<std::size_t>(name.letter)] + kLetters * name.accidental;
}

NoteName name_at_fifths(int fifths) noexcept {
    const int from_f = fifths + 1;
    const int accidental = floor_div(from_f, kLetters);
    return {kFifthsOrder[static_cast<std::size_t>(from_f - kLetters * accidental)],
            static_cast<std::int8_t>(accidental)};
}

NoteName spell(int pitch_class, int signature_fifths) noexcept {
    const int lowest = signature_fifths - 3;
    const int lowest_class = ((lowest * 7) % 12 + 12) % 12;
    const int classes_up = ((pitch_class - lowest_class) % 12 + 12) % 12;
    return name_at_fifths(lowest + (classes_up * 7) % 12);  // seven is its own inverse modulo twelve
}

Pitch spell_midi(int midi, int signature_fifths) noexcept {
    const NoteName name = spell(((midi % 12) + 12) % 12, signature_fifths);
    const int natural = midi - name.accidental;
    return {name, static_cast<std::int8_t>(floor_div(natural, 12) - 1)};
}

std::string to_string(NoteName name) {
    std::string text(1, "CDEFGAB"[static_cast<std::size_t>(name.letter)]);
    text.append(static_cast<std::size_t>(name.accidental < 0 ? -name.accidental : name.accidental),
                name.accidental < 0 ? 'b' : '#');
    return text;
}

std::string to_string(const Pitch& pitch) { return to_string(pitch.name) + std::to_string(pitch.octave); }

std::optional<NoteName> parse_note_name(std::string_view text) {
    const auto name = take_note_name(text);
    return name && text.empty() ? name : std::nullopt;
}

std::optional<Pitch> parse_pitch(std::string_view text) {
    const auto name = take_note_name(text);
    if (!name) return std::nullopt;
    const bool below_zero = text == "-1";
    if (!below_zero && (text.size() != 1 || text[0] < '0' || text[0] > '9')) return std::nullopt;
    const Pitch pitch{*name, static_cast<std::int8_t>(below_zero ? -1 : text[0] - '0')};
    return pitch.midi() >= 0 && pitch.midi() <= 127 ? std::optional(pitch) : std::nullopt;
}

double hertz(int midi) noexcept {
    constexpr double kA4 = 440;
    constexpr int kMidiOfA4 = 69;
    return kA4 * std::exp2((midi - kMidiOfA4) / 12.0);
}

}  // namespace music
