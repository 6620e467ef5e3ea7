// Tested by moved_chord_test.cc and moved_test.cc.
#include "abc/interval.h"

#include <algorithm>
#include <array>

#include "abc/characters.h"
#include "abc/scale_step.h"

namespace abc {

namespace {

int floor_div(int a, int b) noexcept { return a >= 0 ? a / b : -((b - 1 - a) / b); }

}  // namespace

int fifths_of(const music::StatedKey& key) noexcept {
    switch (key.kind) {
        case music::StatedKey::Kind::none:
            return 0;
        case music::StatedKey::Kind::highland_pipes:
            return 2;  // ABC 2.1, section 3.1.14: F and C sharp
        case music::StatedKey::Kind::tonic_and_mode:
        case music::StatedKey::Kind::explicit_accidentals:
            return key.key.signature_fifths();
    }
    return 0;
}

Interval interval_of(const music::StatedKey& key, int semitones) noexcept {
    Interval interval{semitones, 0, 0};
    if (semitones % 12 != 0) {
        const int fifths = fifths_of(key);
        interval.fifths = music::moved_fifths(fifths, semitones) - fifths;
    }
    const music::NoteName above_c = music::name_at_fifths(interval.fifths);
    const int letter = static_cast<int>(above_c.letter);
    const int within = music::kNaturalSemitones[static_cast<std::size_t>(letter)] + above_c.accidental;
    interval.steps = letter + music::kLetters * floor_div(semitones - within, 12);
    return interval;
}

music::NoteName moved(music::NoteName name, const Interval& interval) noexcept {
    return music::name_at_fifths(music::fifths_above_c(name) + interval.fifths);
}

std::string_view written_sign(int accidental) noexcept {
    static constexpr std::array<std::string_view, 5> kSigns{"__", "_", "=", "^", "^^"};
    return kSigns[static_cast<std::size_t>(accidental + 2)];
}

NoteText parts_of_note(std::string_view note) noexcept {
    const std::size_t sign = std::min(note.find_first_not_of("^_="), note.size());
    std::size_t letter = sign;
    while (letter < note.size() && !is_note_letter(note[letter])) ++letter;
    std::size_t length = letter < note.size() ? letter + 1 : letter;
    while (length < note.size() && (note[length] == ',' || note[length] == '\'')) ++length;
    return {note.substr(0, sign), note.substr(sign, letter - sign), note.substr(letter, length - letter),
            note.substr(length)};
}

std::string moved_letter(std::string_view letter, int step) {
    const int old_step = scale_step(letter[0], letter.substr(1));
    const int octave = floor_div(step, music::kLetters);
    if (octave != floor_div(old_step, music::kLetters)) return written_step(step);
    const int place = step - music::kLetters * octave;
    return std::string(1, is_upper(letter[0]) ? "CDEFGAB"[place] : "cdefgab"[place]) + std::string(letter.substr(1));
}

}  // namespace abc
