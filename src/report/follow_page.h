// `gamut tunes --after`: tunes that follow a tune well in a set, and why.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "repertoire/follow.h"
#include "repertoire/tune_shape.h"
#include "report/document.h"
#include "report/listing.h"

namespace report {

struct FollowRow {
    repertoire::TuneShape tune;
    repertoire::Follow follow;
};

struct FollowPage {
    repertoire::TuneShape first;
    std::vector<FollowRow> rows;  // the best first, as many as are shown
    std::int64_t matched = 0;     // tunes that follow
    std::int64_t other_rhythm = 0;
    std::int64_t same_opening = 0;
    std::int64_t left_out = 0;  // by the filters
    std::int64_t scraps = 0;    // left aside, that pass the filters
    std::vector<answers::Sieve> why;
};

// `4th up`, `same key`; `step +2`, `repeat`.
std::string key_move_in_words(const repertoire::Follow& follow);
std::string join_in_words(const repertoire::Follow& follow);

Document describe(const FollowPage& page);
Document tabulate(const FollowPage& page);
std::string as_json(const FollowPage& page);  // the shape `after` of schema/output.md, with a line end

}  // namespace report
