// A term planned from what it is asked for, and a kept one after lessons were given or lost.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "answers/term_course.h"
#include "answers/term_request.h"
#include "base/date.h"
#include "collection/collection.h"
#include "syllabus/changes.h"
#include "syllabus/syllabus.h"

namespace answers {

struct TermPlanned {
    bool is_planned = false;         // no tune can come where it is not, and the term is not planned again
    syllabus::Syllabus plan;         // its name, revision, day and what it was asked for with are the caller's to say
    std::vector<Refusal> not_found;  // words that name no tune
    std::vector<LeftOutNotes> left_out_notes;
};

// The first `fixed` lessons stand as they are. The request names tunes by their ids. Throws Refused, of Part::goal for
// notes to begin with that contradict themselves.
TermPlanned plan_term(const collection::Collection& collection, const TermRequest& request,
                      std::vector<syllabus::Lesson> lessons, std::size_t fixed, const TermSoFar& so_far);

// What a person says of the lessons of a kept term.
struct TermNews {
    std::optional<std::size_t> taught;                      // lessons 1 to so many were given, and no other
    std::vector<std::pair<std::size_t, std::size_t>> lost;  // were or are not held: from 0, the last included
    bool replans = false;  // all that was not given comes anew; else only what comes after a lost lesson
    bool is_sure = false;  // that lessons which count as given were not
};

struct TermChanged {
    syllabus::Syllabus plan;  // revision and day as they were kept
    bool is_planned = false;  // anew, and not only marked
    std::vector<Gone> gone;   // players it goes on without
    std::vector<Refusal> not_found;
    std::vector<LeftOutNotes> left_out_notes;
};

// `request` is that of `kept`, with the instrument it may name a file of. Throws Refused, of Reason::lesson_given for
// what nobody is sure of, as plan_term does besides.
TermChanged change_term(const collection::Collection& collection, const syllabus::Syllabus& kept,
                        const TermRequest& request, const TermNews& news);

// What was given and does not stand with the players of the term yet.
struct ToBeTold {
    struct Begun {
        tune::PlayerId player;
        tune::TuneId tune;
        base::Date day;  // of the lesson

        friend bool operator==(const Begun&, const Begun&) = default;
    };
    std::vector<Begun> begun;                        // are learning it from that day on
    std::map<tune::PlayerId, music::NoteSet> notes;  // that they have been taught
};

ToBeTold to_be_told(const collection::Collection& collection, const syllabus::Syllabus& plan);

}  // namespace answers
