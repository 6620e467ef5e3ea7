// Which of the 128 MIDI notes: what a tune needs, what a player has.
#pragma once

#include <bit>
#include <cstdint>
#include <vector>

namespace music {

constexpr int kMidiNotes = 128;

// A set of sounding notes, MIDI 0 (C-1) to 127 (G9). Spelling never changes a set.
class NoteSet {
public:
    constexpr NoteSet() = default;
    constexpr NoteSet(std::uint64_t low, std::uint64_t high) noexcept : low_(low), high_(high) {}

    // Bits 0..63 and 64..127.
    constexpr std::uint64_t low() const noexcept { return low_; }
    constexpr std::uint64_t high() const noexcept { return high_; }

    // `midi` must lie in 0..127.
    constexpr void add(int midi) noexcept { (midi < 64 ? low_ : high_) |= std::uint64_t{1} << (midi & 63); }
    constexpr bool has(int midi) const noexcept { return ((midi < 64 ? low_ : high_) >> (midi & 63) & 1) != 0; }

    constexpr bool empty() const noexcept { return (low_ | high_) == 0; }
    constexpr int size() const noexcept { return std::popcount(low_) + std::popcount(high_); }
    // The set must not be empty.
    constexpr int lowest() const noexcept {
        return low_ != 0 ? std::countr_zero(low_) : 64 + (std::countr_zero(high_) & 63);
    }
    constexpr int highest() const noexcept {
        return high_ != 0 ? 127 - std::countl_zero(high_) : 63 - std::countl_zero(low_);
    }

    constexpr bool is_within(const NoteSet& other) const noexcept { return without(other).empty(); }
    constexpr NoteSet without(const NoteSet& other) const noexcept {
        return {low_ & ~other.low_, high_ & ~other.high_};
    }

    std::vector<int> midi_numbers() const;  // ascending

    friend constexpr NoteSet operator|(NoteSet a, NoteSet b) noexcept { return {a.low_ | b.low_, a.high_ | b.high_}; }
    friend constexpr NoteSet operator&(NoteSet a, NoteSet b) noexcept { return {a.low_ & b.low_, a.high_ & b.high_}; }
    friend constexpr bool operator==(const NoteSet&, const NoteSet&) = default;

private:
    std::uint64_t low_ = 0;
    std::uint64_t high_ = 0;
};

constexpr NoteSet every_note() noexcept { return {~std::uint64_t{0}, ~std::uint64_t{0}}; }

}  // namespace music
