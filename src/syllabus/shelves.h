// The pieces of a frame sorted on shelves: those that a timetable need not tell apart, the best in front. Inside this
// room only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "syllabus/timetable.h"

namespace syllabus {

struct Shelf {
    std::size_t opens = 0;
    Use use = Use::none;
    std::optional<int> rhythm;
    bool is_must = false;
    std::optional<std::size_t> must_by;
    std::vector<std::size_t> pieces;  // into the frame: promised, then most asked for, easiest, as they stood
    // From here on the pieces cost the same and there are enough for every place: how many of them are taken makes no
    // difference. pieces.size() where that is not so.
    std::size_t alike_from = 0;
};

// Pieces that must come, or stand at the beginning, are alone on theirs.
class Shelves {
public:
    explicit Shelves(const Frame& frame);

    const std::vector<Shelf>& all() const noexcept { return shelves_; }
    std::size_t of_beginning(std::size_t at) const { return beginnings_[at]; }  // the shelf of Frame::begin[at]
    const std::vector<std::size_t>& musts() const noexcept {
        return musts_;
    }  // shelves, the earliest lesson first, those without one last

private:
    std::vector<Shelf> shelves_;
    std::vector<std::size_t> beginnings_, musts_;
};

}  // namespace syllabus
