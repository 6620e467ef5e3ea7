// What a person says of tunes: `gamut mark`, and the words other answers share.
#pragma once

#include <span>
#include <string>

#include "report/document.h"
#include "tune/record.h"

namespace report {

// `thursday, wedding`; empty when there are none.
std::string tag_list(const tune::TuneRecord& record);

// One sentence for each tune, in the order given.
Document describe_marks(std::span<const tune::TuneRecord> records);
// The shape `mark` of schema/output.md, with a line end.
std::string marks_json(std::span<const tune::TuneRecord> records);

}  // namespace report
