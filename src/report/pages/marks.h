// What a person says of tunes: `gamut mark`, and the words other answers share.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "report/document.h"
#include "tune/record.h"

namespace report {

// `thursday, wedding`; empty when there are none.
std::string tag_list(const tune::TuneRecord& record);

struct MarksPage {
    std::vector<tune::TuneRecord> records;
    std::multimap<tune::TuneId, std::string> aliases{};  // as written, of these and others
};

// One sentence for each tune, in the order given.
Document describe(const MarksPage& page);
// The shape `mark` of schema/output.md, with a line end.
std::string as_json(const MarksPage& page);

}  // namespace report
