// How little the rest of a timetable can cost: as if every tune could be taught again and again and nothing had to
// come. Inside this room only.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "syllabus/progress.h"
#include "syllabus/shelves.h"

namespace syllabus {

// One thing after the other of a term: a lesson opens (a step may come), takes a new tune or none, closes.
struct Moment {
    enum class Kind : std::uint8_t { opens, takes_tune, closes };
    Kind kind = Kind::opens;
    std::size_t lesson = 0;
};

std::vector<Moment> moments_of(const Frame& frame);

// Borrows the frame and the moments.
class LeastAhead {
public:
    LeastAhead(const Frame& frame, const Shelves& shelves, const std::vector<Moment>& moments);

    // From before the moment to the end of the term; moments.size() is the end.
    const Cost& from(std::size_t moment, const Progress& progress);

private:
    struct Offer {
        std::optional<int> rhythm;
        Use use = Use::none;  // of the notes of the step last learnt
        std::int64_t asked_for = 0;
        std::int64_t hardness = 0;
    };

    Cost least(std::size_t moment, const Progress& progress);

    const Frame& frame_;
    const std::vector<Moment>& moments_;
    std::vector<std::vector<Offer>> offers_;  // for each number of steps learnt: the best of each kind
    std::vector<std::size_t> users_;          // for each step: pieces that use its notes
    std::uint64_t rhythms_ = 1;               // of the pieces, and none
    std::unordered_map<std::uint64_t, Cost> known_;
};

}  // namespace syllabus
