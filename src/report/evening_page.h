// `gamut evening`: a set list, with the clock beside it.
#pragma once

#include <string>
#include <vector>

#include "repertoire/evening.h"
#include "report/document.h"
#include "report/listing.h"

namespace report {

struct EveningPage {
    repertoire::EveningGoal goal;
    std::vector<repertoire::TuneShape> tunes;  // the evening's tunes index into these
    repertoire::Evening evening;
    std::int64_t doubles = 0;   // left aside as probably the same tune as another
    std::int64_t left_out = 0;  // by the filters
    std::int64_t scraps = 0;    // left aside, that pass the filters
    std::vector<answers::Sieve> why;
};

Document describe(const EveningPage& page);
Document tabulate(const EveningPage& page);
std::string as_json(const EveningPage& page);  // the shape `evening` of schema/output.md, with a line end

}  // namespace report
