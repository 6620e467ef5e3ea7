// What a term is asked for with becomes a course: players, tunes, wishes.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <vector>

#include "answers/notes_asked.h"
#include "answers/refusal.h"
#include "answers/term_request.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "syllabus/course.h"
#include "syllabus/syllabus.h"

namespace answers {

// What a term holds already.
struct TermSoFar {
    bool is_planned_again = false;
    std::set<tune::TuneId> given;  // new in lessons that stand
    // New in any lesson, each with what it is promised: that a player is learning one by now is the term's own doing.
    std::map<tune::TuneId, syllabus::Promise> own;
    // New in lessons that were lost after all: who was to learn these has them not, whatever was written down.
    std::vector<syllabus::NewNotes> undone;
};

struct TermCourse {
    syllabus::Course course;             // its uses_of borrows the collection
    music::NoteSet had_of_first;         // notes that were to come first and are there from the start
    std::int64_t scraps = 0;             // left aside
    std::int64_t known = 0;              // left out: the players know them already, are learning or will not learn them
    std::vector<tune::TuneRecord> gone;  // tunes that cannot come: their files are gone
    std::vector<Refusal> not_found;      // words that name no tune
    std::vector<LeftOutNotes> left_out_notes;
};

// Its lessons, still empty. Throws Refused of Part::term for dates that make no term.
std::vector<syllabus::Lesson> lessons_of(const TermRequest& request);

// Tunes are named by their ids, as with_ids does. Where the term is planned again one whose file is gone is left out
// and told, unless it was given. Throws Refused.
TermCourse course_of(const collection::Collection& collection, const TermRequest& request, const TermSoFar& so_far);

// What was left out of it, for its plan to tell.
std::vector<syllabus::Telling> remarks_on(const TermCourse& course);

}  // namespace answers
