// A term on dates: `gamut syllabus`.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "report/document.h"
#include "syllabus/changes.h"
#include "syllabus/syllabus.h"

namespace report {

struct SyllabusPage {
    syllabus::Syllabus plan;
    std::vector<std::string> notices;  // what is to be told first: a first day that was moved, lessons taken as given
    std::optional<std::vector<syllabus::Change>> changes;  // since the plan before, where there was one
    std::map<tune::TuneId, std::string> titles;            // of the tunes it was asked for with
};

Document describe(const SyllabusPage& page);
Document tabulate(const SyllabusPage& page);  // a row a lesson, for a spreadsheet
std::string as_json(const SyllabusPage& page);

// The terms that are kept.
struct SyllabiPage {
    std::vector<syllabus::Syllabus> plans;
};

Document describe(const SyllabiPage& page);
Document tabulate(const SyllabiPage& page);
std::string as_json(const SyllabiPage& page);

// Two plans side by side, lesson by lesson where they differ.
struct SyllabusComparison {
    syllabus::Syllabus one;
    syllabus::Syllabus other;
};

Document describe(const SyllabusComparison& comparison);
Document tabulate(const SyllabusComparison& comparison);
std::string as_json(const SyllabusComparison& comparison);

// Of lessons `first` to `last`, counted from 0, what was done: for somebody who was not there.
struct MissedPage {
    syllabus::Syllabus plan;
    std::size_t first = 0, last = 0;
};

Document describe(const MissedPage& page);  // on one line
Document tabulate(const MissedPage& page);
std::string as_json(const MissedPage& page);

}  // namespace report
