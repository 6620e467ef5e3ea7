// How far two spellings are from each other.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tune {

// The code points of a UTF-8 text; a byte that is none counts as one.
std::u32string letters_of(std::string_view text);

// How often each letter stands in a text, roughly, so that most others can be left aside unread.
class LetterCounts {
public:
    explicit LetterCounts(std::u32string_view letters);

    // Never more than the spelling distance of the two texts.
    int least_distance(const LetterCounts& other) const noexcept;

private:
    // Letters by the low five bits of their code points; a bit for each that is there once, twice, three times, four.
    std::uint64_t once_and_twice_ = 0;
    std::uint64_t three_and_four_ = 0;
};

// A text, made ready to be compared with many.
class Spelling {
public:
    explicit Spelling(std::u32string letters);

    const std::u32string& letters() const noexcept { return letters_; }

    // The least number of mistakes that turn one text into the other: a letter wrong, left out, put in, or two
    // neighbours exchanged, no place being touched twice (optimal string alignment).
    // Source: F. J. Damerau, "A technique for computer detection and correction of spelling errors", Communications of
    // the ACM 7(3), 1964, 171-176, for the four mistakes; H. Hyyro, "A bit-vector algorithm for computing Levenshtein
    // and Damerau edit distances", Nordic Journal of Computing 10, 2003, 29-39, for the way it is computed here (from
    // memory; the tests compare it with the plain table).
    // Once it is clear that it is more than `most`, any number above that is returned.
    int distance_to(std::u32string_view other, int most = std::numeric_limits<int>::max()) const;

private:
    std::uint64_t places_of(char32_t letter) const noexcept;

    std::u32string letters_;
    std::array<std::uint64_t, 128> ascii_places_{};                 // bit i: letter i of the text
    std::vector<std::pair<char32_t, std::uint64_t>> other_places_;  // ascending
};

}  // namespace tune
