// What each note is worth, and which few give most.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/reach.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "planner/cover.h"
#include "planner/goal.h"
#include "planner/note_worth.h"

namespace answers {

struct NotesQuestion {
    Filter filter;
    std::optional<std::string> have;         // NOTES; else what the players have
    bool by_name = false;                    // every note name in all its octaves as one
    std::vector<int> percents;               // 1 to 100: the fewest notes that give so much of the tunes
    std::optional<std::int64_t> best_start;  // the so many notes or names that open most from nothing; from 1
    planner::Limits limits;
};

struct NotesAnswer {
    struct Smallest {
        int percent = 0;
        std::int64_t tunes = 0;  // so many make the percentage
        planner::SmallestCover found;
        music::NoteSet to_add;  // of the cover, what the player lacks; leads too
    };
    struct BestStart {
        std::int64_t count = 0;
        planner::CoverAnswer found;
    };

    music::NoteSet have;
    bool is_have_given = false;
    bool by_name = false;  // every lead stands for its name in all octaves
    std::int64_t tunes = 0;
    std::int64_t open_now = 0;
    std::int64_t without_notes = 0;  // tunes in which nothing sounds: in no count
    std::int64_t out_of_reach = 0;   // tunes left out for a note that is not where `reach` says
    Reach reach;
    std::vector<planner::NoteWorth> notes;
    std::vector<Smallest> smallest;
    std::optional<BestStart> best_start;
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
NotesAnswer answer(const collection::Collection& collection, const NotesQuestion& question);

}  // namespace answers
