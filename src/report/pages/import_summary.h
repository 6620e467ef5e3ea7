// What an import did: `gamut import`.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "collection/found_odd.h"
#include "report/document.h"

namespace report {

struct ImportSummary {
    std::int64_t files_seen = 0, files_read = 0, files_unchanged = 0, files_failed = 0, files_gone = 0;
    std::int64_t settings_new = 0, settings_changed = 0, settings_same = 0, settings_gone = 0;
    collection::OddCounts odd;                 // in the files read
    collection::OddCounts in_library;          // in all that are there
    std::int64_t with_errors = 0;              // settings read that have one
    std::vector<collection::FoundKind> kinds;  // errors first, the most frequent first
    bool are_printed = false;                  // all that was found is shown already
    std::string library;                       // the file it went into
};

Document describe(const ImportSummary& summary);
std::string as_json(const ImportSummary& summary);

}  // namespace report
