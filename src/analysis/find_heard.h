// A heard phrase found in a tune, in any key, with a few wrong notes.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "analysis/heard.h"
#include "tune/outline.h"

namespace analysis {

// Where a phrase begins. A start counts with its pick-up and without it.
enum class Begins : std::uint8_t { tune, part, within };

struct Hit {
    int errors = 0;  // notes changed, left out or put in
    Begins begins = Begins::within;
    int semitones = 0;  // -5..6, how far the tune lies above what was heard, octaves left out; 0 as heard
    int bar = 0;        // where it begins, as OutlineBar::number

    bool is_exact() const noexcept { return errors == 0; }
    friend bool operator==(const Hit&, const Hit&) = default;
};

// Fewer errors, then the start of the tune, the start of a part, the key it was heard in, the earlier bar; last the
// smaller move of key, up before down. A total order: of two different hits one is better.
bool better(const Hit& a, const Hit& b) noexcept;

// Errors allowed in a phrase of that many notes, repeated ones counted once: none below 6, one below 7, two below 12,
// three below 16, else four. Source: house choice, by tests/alike/README.md; each piece of the phrase that is free of
// errors still has two notes.
int errors_allowed(std::size_t notes) noexcept;

// A phrase made ready to be looked for in many tunes.
class HeardSearch {
public:
    explicit HeardSearch(const Heard& heard);

    // The best hit, in written order; a phrase that runs over a repeat sign is not found. Rhythm does not count, nor do
    // octaves, and notes of one name in a row are one. `at_start`: only what begins the tune. Time goes with the length
    // of the outline.
    std::optional<Hit> find_in(const tune::Outline& outline, bool at_start) const;

private:
    std::array<std::uint64_t, 12> places_{};  // of each pitch class in the phrase read backwards
    std::array<std::uint64_t, 12> steps_{};   // of each interval in the pieces, one behind another
    std::uint64_t piece_starts_ = 0;
    std::uint64_t piece_ends_ = 0;
    std::array<std::uint8_t, 64> last_of_{};  // pitch class a piece ends on, by its bit in piece_ends_
    std::size_t notes_ = 0;
    int errors_ = 0;
};

// The same for one tune.
std::optional<Hit> find_heard(const Heard& heard, const tune::Outline& outline, bool at_start);

}  // namespace analysis
