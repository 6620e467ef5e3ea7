// Which tunes follow a tune well in a set, and why.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "repertoire/follow.h"
#include "repertoire/tune_shape.h"

namespace answers {

// Rows, unless more or fewer are asked for. Source: house choice.
constexpr std::size_t kFollowersShown = 10;

struct FollowQuestion {
    Filter filter;      // of tunes, not of settings; the best come first whatever its order
    std::string first;  // an id, a title or a part of one
    std::size_t limit = kFollowersShown;
};

struct Follower {
    repertoire::TuneShape tune;
    repertoire::Follow follow;
};

struct FollowAnswer {
    repertoire::TuneShape first;
    std::vector<Follower> rows;  // the best first
    std::int64_t matched = 0;    // tunes that follow
    std::int64_t other_rhythm = 0;
    std::int64_t same_opening = 0;
    std::int64_t left_out = 0;  // by the filters
    std::int64_t scraps = 0;    // left aside, that pass the filters
    std::vector<Sieve> why;
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
FollowAnswer answer(const collection::Collection& collection, const FollowQuestion& question);

}  // namespace answers
