// When each step of a path comes and which tune is new in which lesson: a search for the best timetable.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "syllabus/cost.h"

namespace syllabus {

// How a tune uses the notes of the step that opens it. Seldom: struck at most kSeldomTimes, and at most kSeldomStrong
// of these on a strong beat. Source: house choice; that a note comes seldom first and then often is common practice.
enum class Use : std::uint8_t { none, seldom, often };
constexpr int kSeldomTimes = 3;
constexpr int kSeldomStrong = 1;

// Two tunes that use a new note come before the next note. Source: common practice, no source.
constexpr int kTunesPerNote = 2;
// New tunes of one rhythm that may follow each other. Source: common practice, no source.
constexpr int kLongestRun = 2;

// What a tune is promised by the plan before. The number is what a plan without it costs.
enum class Promise : std::uint8_t {
    none = 0,
    planned = 1,  // it was to come
    lost = 2,     // it was to come in a lesson that is lost
};

// A tune as a timetable sees it.
struct Piece {
    std::size_t opens = 0;  // steps that have to be learnt before: 0 for a tune that fits from the start
    // Of the notes of step `opens`; for 0, of notes that came before the timetable begins.
    Use use = Use::none;
    std::optional<int> rhythm;           // 0, 1, 2 ...; empty: unknown, which is never two of a kind
    std::int64_t asked_for = 0;          // 0 or more
    std::int64_t hardness = 0;           // points, 0 or more
    bool is_must = false;                // it must come
    std::optional<std::size_t> must_by;  // and with this lesson, from 0, at the latest; empty: none is in time
    Promise promised = Promise::none;

    std::int64_t costs_left_behind() const noexcept { return static_cast<std::int64_t>(promised); }
};

// A lesson that is still to be planned and will be held.
struct Place {
    int new_tunes = 1;            // at most
    bool may_bring_notes = true;  // at most one step
};

// What came before the first lesson.
struct Before {
    // Lessons held since the last step, that lesson included; empty when there was none.
    std::optional<int> since_step;
    int tunes_since = 0;        // that use its notes; counts where since_step is given
    std::optional<int> rhythm;  // of the last new tune
    int run = 0;                // new tunes of it at the end, running
};

struct Frame {
    std::vector<Place> places;
    std::vector<Piece> pieces;       // the better of two alike stands first
    std::vector<std::size_t> begin;  // into the pieces: the first new tunes, in this order
    std::int64_t missed_anyway = 0;  // wishes that no timetable can meet and that are no piece
    std::size_t steps = 0;           // that may come, in their order
    std::size_t steps_wanted = 0;    // of which the first so many are wished for, whatever they open
    int notes_every = 2;             // lessons from one step to the next, 1 or more
    Before before;
    // About so many states are looked at, in a long term some more: a limit in states makes the same answer everywhere.
    std::size_t max_states = 300'000;
};

struct Timetable {
    struct Lesson {
        bool brings_step = false;
        std::vector<std::size_t> new_tunes;  // into the pieces, in their order

        friend bool operator==(const Lesson&, const Lesson&) = default;
    };
    std::vector<Lesson> lessons;  // one for each place
    Cost cost;
    Cost bound;  // none costs less
    std::size_t states = 0;

    bool is_optimal() const noexcept { return cost == bound; }
};

// The best timetable, or where the states run out the best found and a bound. The same frame gives the same answer.
Timetable find_timetable(const Frame& frame);

// By the definition of each criterion.
Cost cost_of(const Frame& frame, const std::vector<Timetable::Lesson>& lessons);

}  // namespace syllabus
