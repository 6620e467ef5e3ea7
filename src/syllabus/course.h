// What a term is asked for: who learns, from which tunes, how fast, and what the teacher insists on.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "music/note_set.h"
#include "planner/together.h"
#include "syllabus/syllabus.h"
#include "tune/facts.h"

namespace syllabus {

// One that may be taught.
struct CourseTune {
    TermTune tune;  // `use`, `times` and `strong` are found by lay_out
    std::int64_t asked_for = 0;
    bool may_come = true;  // false: it counts for the order of the notes and no more
};

// A tune that must come, by a date or with a numbered lesson (from 1) at the latest; with neither: by the end.
struct Must {
    tune::TuneId id;
    std::optional<base::Date> by_date;
    std::optional<int> by_lesson;
};

// Source of the start values: common practice, no source. Limits: house choice.
struct Pace {
    int notes_every = 2;       // lessons from one new note to the next, 1 to kMostLessons
    int tunes_each = 1;        // new tunes a lesson at most, 1 to kMostTunesEach
    std::optional<int> steps;  // new notes (or groups) in the term at most
};
constexpr int kMostTunesEach = 5;

struct Course {
    std::vector<planner::Member> players;  // one or more: the class has what all of them have
    std::vector<CourseTune> tunes;         // those the teacher must or wants to begin with among them
    std::vector<tune::TuneId> begin;       // the first new tunes of the term, in this order
    std::vector<Must> musts;
    std::vector<int> first;  // the first new notes, MIDI numbers in their order; all within every player's reach
    std::map<tune::TuneId, Promise> promised;  // tunes planned before, as Piece::promised
    std::map<tune::TuneId, std::vector<std::string>>
        known_by;  // where some know a tune already or are learning it: who
    Pace pace;
    std::size_t max_states = 300'000;
    // Where the notes of a tune stand; asked only for tunes that may come after a new note.
    std::function<std::vector<tune::NoteUse>(std::size_t tune)> uses_of;
};

}  // namespace syllabus
