#include "syllabus/progress.h"

#include <algorithm>

namespace syllabus {

Progress::Progress(const Frame& frame) noexcept
    : since_(std::min(frame.before.since_step.value_or(frame.notes_every), frame.notes_every)),
      tunes_since_(frame.before.since_step ? std::min(frame.before.tunes_since, kTunesPerNote) : 0),
      rhythm_(frame.before.rhythm),
      run_(frame.before.rhythm ? std::min(frame.before.run, kLongestRun) : 0),
      has_note_(frame.before.since_step.has_value()) {}

Cost Progress::bring_step(std::size_t lesson) noexcept {
    Cost cost = end_step();
    cost[Criterion::notes_not_taught] = -1;
    cost[Criterion::lateness] = static_cast<std::int64_t>(lesson);
    ++step_;
    since_ = 0;
    tunes_since_ = 0;
    has_note_ = true;
    is_alone_ = true;
    return cost;
}

Cost Progress::teach(std::size_t lesson, std::size_t opens, Use use, std::optional<int> rhythm, std::int64_t asked_for,
                     std::int64_t hardness) noexcept {
    Cost cost;
    cost[Criterion::tunes_late] = static_cast<std::int64_t>(lesson);
    cost[Criterion::not_asked_for] = -asked_for;
    cost[Criterion::hardness] = hardness;
    const bool uses_it = opens == step_ && use != Use::none;
    if (uses_it) is_alone_ = false;
    if (has_note_ && tunes_since_ < kTunesPerNote) {
        const Use wanted = tunes_since_ == 0 ? Use::seldom : Use::often;
        cost[Criterion::out_of_turn] = uses_it && use == wanted ? 0 : 1;
        tunes_since_ += uses_it ? 1 : 0;
    }
    if (!rhythm) {
        rhythm_.reset();
        run_ = 0;
    } else if (rhythm != rhythm_) {
        rhythm_ = rhythm;
        run_ = 1;
    } else if (run_ >= kLongestRun) {
        cost[Criterion::rhythm_runs] = 1;
    } else {
        ++run_;
    }
    return cost;
}

Cost Progress::leave_empty() const noexcept {
    Cost cost;
    cost[Criterion::empty_places] = 1;
    return cost;
}

Cost Progress::end_lesson(const Frame& frame) noexcept {
    Cost cost;
    cost[Criterion::notes_alone] = is_alone_ ? 1 : 0;
    is_alone_ = false;
    since_ = std::min(since_ + 1, frame.notes_every);
    return cost;
}

Cost Progress::end_term(const Frame& frame) const noexcept {
    Cost cost = end_step();
    if (step_ < frame.steps_wanted)
        cost[Criterion::wishes_missed] = static_cast<std::int64_t>(frame.steps_wanted - step_);
    return cost;
}

// No more tunes come for the step learnt last.
Cost Progress::end_step() const noexcept {
    Cost cost;
    if (has_note_) cost[Criterion::tunes_lacking] = kTunesPerNote - tunes_since_;
    return cost;
}

}  // namespace syllabus
