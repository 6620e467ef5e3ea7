// What an import hands to a collection: one file with its settings, as plain values.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "tune/facts.h"
#include "tune/oddity.h"

namespace collection {

// An oddity of a setting at its place in the file; lines and columns from 1.
struct StoredOddity {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
    tune::OddityKind kind = tune::OddityKind::unreadable;
    base::Severity severity = base::Severity::warning;
    std::string message;
    std::string advice;

    friend bool operator==(const StoredOddity&, const StoredOddity&) = default;
};

// One setting. What `gamut tune` alone tells (where notes stand, evidence, parts and phrases) is not stored: it is made
// again from `abc` when it is asked for.
struct StoredSetting {
    std::optional<std::string> number;         // of X:
    std::uint32_t line = 1;                    // from 1
    std::vector<std::string> titles;           // UTF-8, in order; may be empty
    std::optional<std::string> rhythm_stated;  // R: as written
    std::string key_stated = "none";           // of the first K:, as music::to_string(StatedKey) writes it
    std::optional<std::string> key_in_force;   // of another K: between it and the first note
    std::size_t errors = 0;                    // faults met when it was read
    tune::TuneFacts facts;
    std::string outline;  // as tune::encode_outline; empty counts as no note
    std::string form;     // as tune::form_of

    std::vector<StoredOddity> oddities;
    std::string abc;  // the block's own text, UTF-8
};

// A diagnostic at its place; lines and columns from 1.
struct StoredDiagnostic {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
    base::Severity severity = base::Severity::warning;
    std::string code;
    std::string message;

    friend bool operator==(const StoredDiagnostic&, const StoredDiagnostic&) = default;
};

struct StoredFile {
    std::string path;                     // absolute, as bytes; unique in a library
    std::string shown;                    // relative to the imported folder, UTF-8; kept from the first import
    std::int64_t size = 0;                // bytes
    std::int64_t mtime_ns = 0;            // nanoseconds since 1970
    std::int64_t imported_ns = 0;         // when the import began
    std::string content_hash;             // as library::content_hash makes it; empty: unknown
    std::string header;                   // the file header's text, without which a block may not be understood
    std::vector<StoredSetting> settings;  // in the order of the file
    std::vector<StoredDiagnostic> diagnostics;
};

}  // namespace collection
