// Writing down that two tunes are one, or are not: `gamut same`. Reading what came of it: library.h.
#pragma once

#include <filesystem>
#include <optional>

#include "base/date.h"
#include "tune/record.h"

namespace library {

// `day`: on which it is said, for the journal. Kept for ever, whatever is imported; saying otherwise of the same two
// changes it. Ids are a tune's own (TuneRecord::own) and must differ. Families are settled anew at once. Throws
// base::Failure as Marks does, and for an id that no tune has.
void say_same(const std::filesystem::path& file, tune::TuneId one, tune::TuneId other, bool is_same,
              std::optional<base::Date> day = std::nullopt);

}  // namespace library
