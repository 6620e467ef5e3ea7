// A goal that contradicts itself, or that no path meets: what is wrong, in kinds and numbers. Notes are MIDI numbers.
#pragma once

#include <cstdint>
#include <exception>
#include <utility>
#include <variant>
#include <vector>

#include "music/note_set.h"
#include "tune/record.h"

namespace planner {

struct InTwoGroups {
    music::NoteSet notes;

    friend bool operator==(const InTwoGroups&, const InTwoGroups&) = default;
};

// `first` was to be learnt before `then`.
struct WrongBefore {
    enum class Why : std::uint8_t {
        there_already,    // `then` is
        never_learnt,     // `first` is avoided
        learnt_together,  // both are in one group
        both_ways,        // `then` was to be learnt before `first` too
    };
    int first = 0;
    int then = 0;
    Why why = Why::there_already;

    friend bool operator==(const WrongBefore&, const WrongBefore&) = default;
};

// `note` was named to begin with.
struct WrongFirst {
    enum class Why : std::uint8_t { twice, there_already, never_learnt };
    int note = 0;
    Why why = Why::twice;

    friend bool operator==(const WrongFirst&, const WrongFirst&) = default;
};

// `note` was named to begin with before `earlier`, which is to come before it.
struct NamedTooEarly {
    int note = 0;
    int earlier = 0;

    friend bool operator==(const NamedTooEarly&, const NamedTooEarly&) = default;
};

// The tune must open, and needs these, which are avoided.
struct NeedsAvoided {
    tune::TuneId tune;
    music::NoteSet notes;

    friend bool operator==(const NeedsAvoided&, const NeedsAvoided&) = default;
};

// The tunes must open within so many steps, and take more.
struct TooFewSteps {
    std::vector<tune::TuneId> tunes;
    std::int64_t steps = 0;
    std::int64_t takes = 0;
    music::NoteSet needs;  // that are not there
    music::NoteSet after;  // what the path begins with besides

    friend bool operator==(const TooFewSteps&, const TooFewSteps&) = default;
};

// What the path must have takes more steps than were asked about.
struct TooMuchForced {
    std::int64_t takes = 0;
    std::int64_t steps = 0;

    friend bool operator==(const TooMuchForced&, const TooMuchForced&) = default;
};

using Fault =
    std::variant<InTwoGroups, WrongBefore, WrongFirst, NamedTooEarly, NeedsAvoided, TooFewSteps, TooMuchForced>;

class GoalFault : public std::exception {
public:
    explicit GoalFault(Fault fault) : fault_(std::move(fault)) {}

    const Fault& fault() const noexcept { return fault_; }
    // Whatever the tunes are; else these tunes cannot meet it.
    bool is_contradiction() const noexcept { return fault_.index() < Fault(NeedsAvoided{}).index(); }
    const char* what() const noexcept override { return "no path meets the goal"; }

private:
    Fault fault_;
};

}  // namespace planner
