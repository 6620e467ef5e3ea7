#include "tune/spelling_distance.h"

#include <algorithm>
#include <bit>

namespace tune {

namespace {

constexpr std::size_t kLettersInWord = 64;

// The table of all beginnings against all beginnings, three rows of it at a time.
int distance_by_table(std::u32string_view one, std::u32string_view other) {
    std::vector<int> before_last(other.size() + 1), last(other.size() + 1), row(other.size() + 1);
    for (std::size_t j = 0; j <= other.size(); ++j) last[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= one.size(); ++i) {
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= other.size(); ++j) {
            const int wrong = one[i - 1] == other[j - 1] ? 0 : 1;
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + wrong});
            if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        before_last.swap(last);
        last.swap(row);
    }
    return last[other.size()];
}

}  // namespace

std::u32string letters_of(std::string_view text) {
    std::u32string letters;
    letters.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const auto first = static_cast<unsigned char>(text[at]);
        const std::size_t length = first < 0xC0 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
        if (length == 1 || at + length > text.size()) {
            letters += static_cast<char32_t>(first);
            ++at;
            continue;
        }
        auto letter = static_cast<char32_t>(first & (0xFFU >> (length + 1)));
        for (std::size_t next = 1; next < length; ++next)
            letter = (letter << 6) | (static_cast<unsigned char>(text[at + next]) & 0x3FU);
        letters += letter;
        at += length;
    }
    return letters;
}

LetterCounts::LetterCounts(std::u32string_view letters) {
    for (const char32_t letter : letters) {
        const std::uint64_t first = std::uint64_t{1} << (letter % 32);
        const std::uint64_t next = first << 32;
        std::uint64_t& counts = (once_and_twice_ & next) == 0 ? once_and_twice_ : three_and_four_;
        counts |= (counts & first) == 0 ? first : next;
    }
}

int LetterCounts::least_distance(const LetterCounts& other) const noexcept {
    // A mistake takes one letter away at most, and puts one in at most.
    const int more = std::popcount(once_and_twice_ & ~other.once_and_twice_) +
                     std::popcount(three_and_four_ & ~other.three_and_four_);
    const int fewer = std::popcount(other.once_and_twice_ & ~once_and_twice_) +
                      std::popcount(other.three_and_four_ & ~three_and_four_);
    return std::max(more, fewer);
}

Spelling::Spelling(std::u32string letters) : letters_(std::move(letters)) {
    if (letters_.size() > kLettersInWord) return;
    for (std::size_t at = 0; at < letters_.size(); ++at) {
        const char32_t letter = letters_[at];
        const std::uint64_t place = std::uint64_t{1} << at;
        if (letter < ascii_places_.size()) {
            ascii_places_[letter] |= place;
            continue;
        }
        const auto found = std::find_if(other_places_.begin(), other_places_.end(),
                                        [letter](const auto& entry) { return entry.first == letter; });
        if (found == other_places_.end())
            other_places_.emplace_back(letter, place);
        else
            found->second |= place;
    }
}

std::uint64_t Spelling::places_of(char32_t letter) const noexcept {
    if (letter < ascii_places_.size()) return ascii_places_[letter];
    for (const auto& [other, places] : other_places_)
        if (other == letter) return places;
    return 0;
}

int Spelling::distance_to(std::u32string_view other, int most) const {
    if (letters_.empty()) return static_cast<int>(other.size());
    if (letters_.size() > kLettersInWord) return distance_by_table(letters_, other);
    // One column of the table as the differences of neighbours: where it rises by one (`rises`), falls by one
    // (`falls`), and where a place is reached from above left at no cost (`free_step`). Letters as in Hyyro 2003.
    const std::uint64_t last = std::uint64_t{1} << (letters_.size() - 1);
    std::uint64_t rises = ~std::uint64_t{0};
    std::uint64_t falls = 0;
    std::uint64_t free_step = 0;
    std::uint64_t before = 0;  // places of the letter before
    int distance = static_cast<int>(letters_.size());
    int left = static_cast<int>(other.size());
    for (const char32_t letter : other) {
        if (distance - left > most) return distance - left;  // one letter changes it by one at most
        --left;
        const std::uint64_t here = places_of(letter);
        const std::uint64_t exchanged = ((~free_step & here) << 1) & before;
        free_step = (((here & rises) + rises) ^ rises) | here | falls | exchanged;
        std::uint64_t right_rises = falls | ~(free_step | rises);
        std::uint64_t right_falls = free_step & rises;
        if ((right_rises & last) != 0) ++distance;
        if ((right_falls & last) != 0) --distance;
        right_rises = (right_rises << 1) | 1;
        right_falls <<= 1;
        rises = right_falls | ~(free_step | right_rises);
        falls = right_rises & free_step;
        before = here;
    }
    return distance;
}

}  // namespace tune
