// Bringing a library up to date with folders and files of ABC: only what changed is read, and no file of the user's is
// written.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "importer/scan.h"

namespace importer {

struct ImportOptions {
    std::int64_t now_ns =
        0;                 // nanoseconds since 1970 when the import began; 0 has every file's bytes compared next time
    unsigned workers = 0;  // threads that read; 0: one a processor, at most 8
    std::size_t diagnostics_per_file = 20;  // texts in the report; all are counted
    std::size_t diagnostics_in_all = 2000;
};

// What was odd in one file, as texts to print.
struct FileDiagnostics {
    std::string file;                  // as shown
    std::vector<std::string> printed;  // each by base::print_diagnostic
    std::int64_t not_printed = 0;
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
    struct {
        std::int64_t errors = 0;  // of the files read this time
        std::int64_t warnings = 0;
        std::int64_t remarks = 0;
    } diagnostics;
    std::vector<PathRemark> problems;      // what was asked for and could not be read
    std::vector<PathRemark> passed_over;   // what was met and not taken, with the reason; also empty files
    std::vector<FileDiagnostics> printed;  // in the order of the files
    std::int64_t files_beyond_print = 0;   // files with diagnostics, none of them printed

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
