// Folders imported by several threads, each three times: new, unchanged, and with every file to be compared again; the
// answers of one thread and of many must be the same. For scripts/memory, which builds it so that two threads at one
// place without order are seen.
//
//     parallel_import WORKERS FOLDER...
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "importer/import.h"
#include "library/library.h"
#include "support/scratch.h"

namespace {

struct Outcome {
    std::vector<std::string> lines;  // a tune each: id, title, file, key
    std::int64_t files = 0, settings = 0;
};

Outcome import(const std::filesystem::path& folder, unsigned workers) {
    const support::Scratch scratch;
    const auto file = scratch / "library.db";
    Outcome outcome;
    for (const std::int64_t now : {std::int64_t{2}, std::int64_t{4'000'000'000'000'000'000}, std::int64_t{0}}) {
        importer::ImportOptions options;
        options.now_ns = now;
        options.workers = workers;
        const importer::ImportReport report = importer::import_paths({folder}, file, options);
        outcome.files = report.files.seen;
        outcome.settings += report.settings.added;
    }
    for (const tune::TuneRecord& tune : library::Library::open_existing(file).select_tunes({}).rows)
        outcome.lines.push_back(std::to_string(tune.id.value) + " " + (tune.titles.empty() ? "" : tune.titles.front()) +
                                " " + tune.file + " " + (tune.key ? music::to_string(*tune.key) : ""));
    return outcome;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 3) {
        std::fprintf(stderr, "usage: parallel_import WORKERS FOLDER...\n");
        return 2;
    }
    bool all_same = true;
    for (int at = 2; at < argc; ++at) {
        const Outcome many = import(argv[at], static_cast<unsigned>(std::atoi(argv[1])));
        const bool is_same = import(argv[at], 1).lines == many.lines;
        all_same = all_same && is_same && many.settings > 0;
        std::printf("%s: %lld files, %lld settings by %s threads, %s\n",
                    std::filesystem::path(argv[at]).filename().c_str(), static_cast<long long>(many.files),
                    static_cast<long long>(many.settings), argv[1], is_same ? "as by one" : "NOT AS BY ONE");
    }
    return all_same ? 0 : 1;
}
