// A lesson, a step, a week and a whole term on paper.
#pragma once

#include <vector>

#include "answers/lesson_handout.h"
#include "answers/week_handout.h"
#include "paper/page.h"
#include "paper/tune_pages.h"

namespace paper {

// Pages that go together under one foot.
using Sheet = TunePages;

// The lesson itself, then its tunes.
std::vector<Sheet> lesson_sheets(const answers::LessonHandout& handout, const Looks& looks);

// Every lesson in a row, and the ladder with the lessons of its notes.
Sheet term_sheet(const syllabus::Syllabus& plan, const answers::TermLadder& ladder, const Looks& looks);

// Three cards to a sheet, to be cut.
Sheet week_sheet(const std::vector<answers::WeekHandout>& weeks, const Looks& looks);

// `25 January 2027`
std::string day_in_words(base::Date date);

}  // namespace paper
