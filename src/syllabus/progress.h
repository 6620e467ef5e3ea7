// Where a class stands in the middle of a timetable, and what each move from there costs. Inside this room only.
#pragma once

#include <cstddef>
#include <optional>

#include "syllabus/timetable.h"

namespace syllabus {

class Progress {
public:
    explicit Progress(const Frame& frame) noexcept;

    std::size_t step() const noexcept { return step_; }        // steps learnt
    int since() const noexcept { return since_; }              // lessons since the last, at most Frame::notes_every
    int tunes_since() const noexcept { return tunes_since_; }  // that use its notes, at most kTunesPerNote
    std::optional<int> rhythm() const noexcept { return rhythm_; }  // of the last new tune; empty: unknown, or none
    int run() const noexcept { return run_; }                       // new tunes of it running, at most kLongestRun
    bool has_note() const noexcept { return has_note_; }
    bool is_alone() const noexcept { return is_alone_; }  // a note came in this lesson, and no tune that uses it yet

    bool may_bring(const Frame& frame, const Place& place) const noexcept {
        return place.may_bring_notes && step_ < frame.steps && since_ >= frame.notes_every;
    }
    Cost bring_step(std::size_t lesson) noexcept;
    Cost teach(std::size_t lesson, std::size_t opens, Use use, std::optional<int> rhythm, std::int64_t asked_for,
               std::int64_t hardness) noexcept;
    Cost leave_empty() const noexcept;
    Cost end_lesson(const Frame& frame) noexcept;
    Cost end_term(const Frame& frame) const noexcept;

private:
    Cost end_step() const noexcept;

    std::size_t step_ = 0;
    int since_ = 0;
    int tunes_since_ = 0;
    std::optional<int> rhythm_;
    int run_ = 0;
    bool has_note_ = false;
    bool is_alone_ = false;
};

}  // namespace syllabus
