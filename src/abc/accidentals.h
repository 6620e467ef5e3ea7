// What a plain letter sounds like at a point: signature and the signs met since the bar line. ABC 2.1, section 11.3.
#pragma once

#include <array>
#include <cstdint>

#include "music/key.h"
#include "music/pitch.h"

namespace abc {

// How far a written accidental reaches. `pitch` is the standard's default.
enum class Reach : std::uint8_t { this_note, same_octave, every_octave };

class Accidentals {
public:
    Reach reach = Reach::every_octave;
    music::Signature signature{};

    void forget_bar() noexcept {
        if (is_empty_) return;
        signs_.fill(kNoSign);
        is_empty_ = true;
    }

    // A written sign: from here to the bar line.
    void write(music::Letter letter, int octave, std::int8_t accidental) noexcept {
        if (reach == Reach::this_note) return;
        signs_[place(letter, octave)] = accidental;
        is_empty_ = false;
    }

    std::int8_t of(music::Letter letter, int octave) const noexcept {
        const std::int8_t sign = signs_[place(letter, octave)];
        return sign != kNoSign ? sign : signature[static_cast<std::size_t>(letter)];
    }

private:
    static constexpr std::int8_t kNoSign = 127;
    static constexpr int kOctaves = 16;

    std::size_t place(music::Letter letter, int octave) const noexcept {
        const int row = reach == Reach::same_octave ? ((octave % kOctaves) + kOctaves) % kOctaves : 0;
        return static_cast<std::size_t>(row * music::kLetters + static_cast<int>(letter));
    }

    std::array<std::int8_t, static_cast<std::size_t>(kOctaves* music::kLetters)> signs_ = filled();
    bool is_empty_ = true;

    static constexpr std::array<std::int8_t, static_cast<std::size_t>(kOctaves* music::kLetters)> filled() {
        std::array<std::int8_t, static_cast<std::size_t>(kOctaves * music::kLetters)> signs{};
        signs.fill(kNoSign);
        return signs;
    }
};

}  // namespace abc
