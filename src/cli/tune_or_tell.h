// A tune named on the command line that may be missing while the rest goes on.
#pragma once

#include <optional>
#include <string>

#include "answers/tune_named.h"

namespace cli {

// As answers::tune_named; where no tune is called so, that is told and nothing comes.
std::optional<tune::TuneRecord> tune_or_tell(const collection::Collection& library, const std::string& which);

}  // namespace cli
