// Bringing a library up to date with folders and files of ABC: only what changed is read, and no file of the user's is
// written.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "collection/found_odd.h"
#include "importer/scan.h"

namespace importer {

struct ImportOptions {
    std::int64_t now_ns =
        0;                 // nanoseconds since 1970 when the import began; 0 has every file's bytes compared next time
    unsigned workers = 0;  // threads that read; 0: one a processor, at most 8
    std::size_t most_printed = 5;  // findings in the report as whole texts; all are counted
};

struct ImportReport {
    struct {
        std::int64_t seen = 0;  // found by the scan: read + unchanged + failed
        std::int64_t read = 0;
        std::int64_t unchanged = 0;
        std::int64_t failed = 0;  // unreadable, binary, too large
        std::int64_t gone = 0;
    } files;
    struct {
        std::int64_t added = 0;  // `new` in JSON
        std::int64_t changed = 0;
        std::int64_t same = 0;  // of unchanged files too
        std::int64_t gone = 0;
    } settings;
    collection::OddCounts diagnostics;         // of the files read this time
    collection::OddCounts in_library;          // of all that are there
    std::int64_t with_errors = 0;              // settings read this time that have one
    std::vector<collection::FoundKind> kinds;  // errors, warnings, remarks; the most frequent first, of equals by code
    std::vector<std::string> printed;  // the first findings, each by base::print_diagnostic, in the order of the files
    std::vector<PathRemark> problems;  // what was asked for and could not be read
    std::vector<PathRemark> passed_over;  // what was met and not taken, with the reason; also empty files

    bool is_complete() const noexcept { return problems.empty() && files.failed == 0; }
};

struct Progress {
    std::int64_t files_done = 0;
    std::int64_t files_total = 0;  // to be read; unchanged ones are not among them
    std::int64_t settings = 0;     // stored so far
};

// Called on the calling thread after each file.
using ProgressCallback = std::function<void(const Progress&)>;

// Throws base::Failure when the library cannot be written; what was stored until then stays. A file or path that cannot
// be read is a problem in the report. The same folders give the same ids, however many workers there are.
ImportReport import_paths(const std::vector<std::filesystem::path>& paths, const std::filesystem::path& library_file,
                          const ImportOptions& options = {}, const ProgressCallback& progress = {});

}  // namespace importer
