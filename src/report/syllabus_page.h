// A term on dates: `gamut syllabus`.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "report/document.h"
#include "report/icalendar.h"
#include "syllabus/changes.h"
#include "syllabus/syllabus.h"

namespace report {

struct SyllabusPage {
    syllabus::Syllabus plan;
    std::vector<std::string> notices;  // what is to be told first: a first day that was moved, lessons taken as given
    std::optional<std::vector<syllabus::Change>> changes;  // since the plan before, where there was one
    std::map<tune::TuneId, std::string> titles;            // of the tunes it was asked for with
};

Document describe_syllabus(const SyllabusPage& page);
Document tabulate_syllabus(const SyllabusPage& page);  // a row a lesson, for a spreadsheet
std::string syllabus_json(const SyllabusPage& page);

Document list_syllabi(const std::vector<syllabus::Syllabus>& plans);
Document tabulate_syllabi(const std::vector<syllabus::Syllabus>& plans);
std::string syllabi_json(const std::vector<syllabus::Syllabus>& plans);

// Two plans side by side, lesson by lesson where they differ.
struct SyllabusComparison {
    syllabus::Syllabus one;
    syllabus::Syllabus other;
};

Document describe_comparison(const SyllabusComparison& comparison);
Document tabulate_comparison(const SyllabusComparison& comparison);
std::string comparison_json(const SyllabusComparison& comparison);

// Of lessons `first` to `last`, counted from 0: on one line what was done, for somebody who was not there.
std::string missed_in_words(const syllabus::Syllabus& plan, std::size_t first, std::size_t last);
Document tabulate_missed(const syllabus::Syllabus& plan, std::size_t first, std::size_t last);
std::string missed_json(const syllabus::Syllabus& plan, std::size_t first, std::size_t last);

// A lesson an event, whose uid is the same for the same lesson however often the term is planned again.
std::string syllabus_calendar(const syllabus::Syllabus& plan, const std::optional<ClockTime>& time);

}  // namespace report
