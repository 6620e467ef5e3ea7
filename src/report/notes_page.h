// What each note is worth, as a musician reads it: `gamut notes`.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/reach.h"
#include "music/note_set.h"
#include "planner/cover.h"
#include "planner/note_worth.h"
#include "report/document.h"

namespace report {

struct NotesPage {
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
    answers::Reach reach;
    std::vector<planner::NoteWorth> notes;
    std::vector<Smallest> smallest;
    std::optional<BestStart> best_start;
};

Document describe(const NotesPage& page);
Document tabulate(const NotesPage& page);  // the table of notes alone
std::string as_json(const NotesPage& page);

}  // namespace report
