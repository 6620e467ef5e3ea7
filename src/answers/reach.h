// Where the notes of a tune have to be for somebody to play it.
#pragma once

#include <cstddef>
#include <optional>

namespace answers {

// Nothing is given where neither players nor an instrument were.
struct Reach {
    std::size_t players = 0;   // on the instruments of so many
    bool instrument = false;   // on the one that was given
    std::optional<int> grade;  // up to this
    bool fits = false;         // and among the notes that were given beside players

    bool is_given() const noexcept { return players > 0 || instrument; }
};

}  // namespace answers
