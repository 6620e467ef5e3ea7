// What a class takes home of one lesson, or of one step of a path.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/path.h"
#include "answers/rungs.h"
#include "answers/tune_handout.h"
#include "base/date.h"
#include "collection/collection.h"
#include "hands/drill.h"
#include "syllabus/syllabus.h"

namespace answers {

// A tune of a lesson: why it is there.
struct LessonTune {
    std::string title;
    std::string rhythm;  // a token; empty when unknown
    int times = 0;       // the new notes are struck in it; 0: it has none
    int strong = 0;      // of these, on a strong beat
};

// Notes to be played first, bar by bar.
struct DrillBlocks {
    hands::Passage::Kind kind = hands::Passage::Kind::up_and_down;
    int about = 0;  // as in hands::Passage
    std::vector<BlockBar> bars;
};

struct LessonHandout {
    std::string term;  // empty for a step
    int number = 1;    // of the lesson, or of the step
    std::optional<base::Date> date;
    syllabus::LessonState state = syllabus::LessonState::planned;
    std::string player;                                         // as shown; empty where nobody is named
    std::shared_ptr<const instruments::Instrument> instrument;  // may be null
    music::NoteSet have;                                        // before it
    music::NoteSet fresh;
    std::int64_t opens = 0;  // tunes, of those asked for
    std::vector<LessonTune> tunes, again;
    std::vector<LessonTune> next_tunes;  // of the lesson that follows, with its day
    std::optional<base::Date> next_date;
    music::NoteSet next_notes;
    Rungs rungs;
    std::vector<DrillBlocks> drill;   // of the new notes, where the instrument has them
    std::vector<TuneHandout> sheets;  // one for each new tune that is there
    std::vector<std::string> gone;    // titles of new tunes without one
    std::vector<LeftOutNotes> left_out_notes;
};

// `lesson` from 0, within the plan. What the reader does not say comes from what the term was asked for with. Throws
// Refused.
LessonHandout lesson_handout(const collection::Collection& collection, const syllabus::Syllabus& plan,
                             std::size_t lesson, const HandoutReader& reader);

// `step` from 0, within the plan. Throws Refused.
LessonHandout step_handout(const collection::Collection& collection, const PathQuestion& question,
                           const PathAnswer& path, std::size_t step, const HandoutReader& reader);

// The ladder of a term: what is there before it, and in which lesson (from 1) each new note comes and what it opens
// there. Notes that do not come are none of its rungs.
struct TermLadder {
    Rungs rungs;
    std::vector<std::pair<int, int>> lessons;  // MIDI, lesson
};
TermLadder ladder_of(const collection::Collection& collection, const syllabus::Syllabus& plan);

}  // namespace answers
