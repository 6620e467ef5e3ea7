// What makes one timetable better than another: criteria, the weightiest first.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace syllabus {

// Less is better in each. A timetable is better than another where the first criterion in which they differ says so.
// Source of the order: house choice, by what a teacher would give up last.
enum class Criterion : std::uint8_t {
    wishes_missed,  // tunes that must come, and do not by the lesson asked for; notes to begin with that do not come
    wishes_late,  // lessons that tunes which must come are late, added up; to the end of the term where they never come
    empty_places,      // places for a new tune that stay empty
    left_behind,       // tunes planned before that do not come now, those of a lost lesson twice
    tunes_lacking,     // of the two tunes that use a new note before the next note comes
    rhythm_runs,       // new tunes that are the third or later of a rhythm running
    tunes_late,        // sum over the new tunes of the lessons held before each comes: gaps stand at the end
    notes_not_taught,  // counted from 0 downwards: one less for each note taught
    notes_alone,       // lessons that bring a note and no new tune which uses it
    out_of_turn,       // not seldom first, then often; and other tunes that come in between
    not_asked_for,     // counted from 0 downwards: less by the count of each tune taught
    hardness,          // points of the tunes taught (hardness.h)
    lateness,          // sum over the notes of the lessons held before each comes
};

constexpr std::size_t kCriteria = 13;

std::string_view criterion_token(Criterion criterion) noexcept;  // `wishes-missed`

class Cost {
public:
    std::int64_t operator[](Criterion criterion) const noexcept { return of_[static_cast<std::size_t>(criterion)]; }
    std::int64_t& operator[](Criterion criterion) noexcept { return of_[static_cast<std::size_t>(criterion)]; }

    Cost& operator+=(const Cost& other) noexcept {
        for (std::size_t at = 0; at < kCriteria; ++at) of_[at] += other.of_[at];
        return *this;
    }
    friend Cost operator+(Cost a, const Cost& b) noexcept { return a += b; }
    friend bool operator==(const Cost&, const Cost&) = default;
    friend std::strong_ordering operator<=>(const Cost& a, const Cost& b) noexcept {  // by the first that differs
        for (std::size_t at = 0; at < kCriteria; ++at)
            if (a.of_[at] != b.of_[at]) return a.of_[at] <=> b.of_[at];
        return std::strong_ordering::equal;
    }

private:
    std::array<std::int64_t, kCriteria> of_{};
};

}  // namespace syllabus
