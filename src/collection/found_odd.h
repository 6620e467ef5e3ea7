// What was found odd while files were read: how often, and of which kinds.
#pragma once

#include <cstdint>
#include <string>

#include "base/diagnostics.h"

namespace collection {

struct OddCounts {
    std::int64_t errors = 0;
    std::int64_t warnings = 0;
    std::int64_t remarks = 0;

    std::int64_t& of(base::Severity severity) noexcept {
        return severity == base::Severity::error ? errors : severity == base::Severity::warning ? warnings : remarks;
    }
    std::int64_t total() const noexcept { return errors + warnings + remarks; }
    OddCounts& operator+=(const OddCounts& other) noexcept {
        errors += other.errors;
        warnings += other.warnings;
        remarks += other.remarks;
        return *this;
    }
    friend bool operator==(const OddCounts&, const OddCounts&) = default;
};

// One kind of finding in several files, and where it was met first.
struct FoundKind {
    std::string code;  // as base::Diagnostic
    base::Severity severity = base::Severity::remark;
    std::int64_t times = 0;
    std::int64_t files = 0;
    std::string file;  // as shown
    std::int64_t line = 0;
    std::string message;
};

}  // namespace collection
