// Several players at once: what all can play, and which note which of them could learn so that all can play most.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "music/note_set.h"
#include "planner/goal.h"

namespace planner {

struct Member {
    std::string name;
    music::NoteSet have;
    music::NoteSet reach;  // what their instrument has; a note outside is never proposed to them
};

// Notes that are proposed together, at most. Source: house choice; a player learns no more of them in a month.
constexpr int kMostInGroup = 3;

// Notes that everyone would share once those named had learnt what they lack of them.
struct SharedNotes {
    music::NoteSet notes;
    std::vector<std::size_t> learners;  // into the members; ascending
    std::vector<tune::TuneId> opens;    // tunes all could play then, in the order of `wanted`

    friend bool operator==(const SharedNotes&, const SharedNotes&) = default;
};

struct Together {
    music::NoteSet common;
    std::vector<tune::TuneId> now;  // tunes all can play
    std::vector<std::int64_t> own;  // tunes each can play alone, one for each member
    // One note each, that opens something: fewest learners first, then most tunes, then the lower.
    std::vector<SharedNotes> notes;
    // Two to kMostInGroup notes of one tune that all of them open, and more than any one note or smaller group with no
    // other learners does: fewest notes first, then fewest learners, then most tunes, then the lower.
    std::vector<SharedNotes> groups;
    std::int64_t out_of_reach = 0;  // tunes with a note that some member's instrument has not

    friend bool operator==(const Together&, const Together&) = default;
};

// `members` must not be empty.
Together play_together(std::span<const Wanted> wanted, std::span<const Member> members);

}  // namespace planner
