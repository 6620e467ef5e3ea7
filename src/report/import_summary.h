// What an import did: `gamut import`.
#pragma once

#include <cstdint>
#include <string>

#include "report/document.h"

namespace report {

struct ImportSummary {
    std::int64_t files_seen = 0, files_read = 0, files_unchanged = 0, files_failed = 0, files_gone = 0;
    std::int64_t settings_new = 0, settings_changed = 0, settings_same = 0, settings_gone = 0;
    std::int64_t errors = 0, warnings = 0, remarks = 0;
    std::string library;  // the file it went into
};

Document describe(const ImportSummary& summary);
std::string as_json(const ImportSummary& summary);

}  // namespace report
