// Files the library knows are stored before new ones, each in the order of their paths: a tune cut from one file and
// put into a new one is then missed before it is met, and keeps its id. Tested by import_test.cc.
#include "importer/import.h"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <functional>
#include <map>
#include <set>
#include <string_view>
#include <thread>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "base/utf8.h"
#include "importer/read_ahead.h"
#include "library/intake.h"

namespace importer {

namespace {

// A file written so shortly before it was imported may have been written again within the same tick of its clock: then
// its bytes decide. Source: house choice; FAT, the coarsest in use, counts two seconds.
constexpr std::int64_t kTrustNs = 2'000'000'000;

// More threads than this wait for the one that stores. Source: house choice.
constexpr unsigned kMaxWorkers = 8;

using KnownByPath = std::unordered_map<std::string_view, const library::KnownFile*>;

bool is_unchanged(const FoundFile& found, const library::KnownFile& known) {
    return !known.gone && known.facts_are_current && !known.content_hash.empty() && known.size == found.size &&
           known.mtime_ns == found.mtime_ns && known.imported_ns - known.mtime_ns >= kTrustNs;
}

bool is_on_disk(const std::string& path) {
    struct stat status {};
    return ::stat(path.c_str(), &status) == 0 || (errno != ENOENT && errno != ENOTDIR);
}

bool is_below(std::string_view path, std::string_view folder) {
    if (folder == "/") return true;
    return path.size() > folder.size() && path.starts_with(folder) && path[folder.size()] == '/';
}

bool is_below_any(std::string_view path, const std::vector<std::string>& folders) {
    return std::any_of(folders.begin(), folders.end(),
                       [path](const std::string& folder) { return is_below(path, folder); });
}

struct Vanished {
    std::vector<library::FileId> all;
    std::vector<library::FileId> to_mark;  // below a folder that was asked for and read
};

Vanished find_vanished(const std::vector<library::KnownFile>& known, const Scan& scanned) {
    std::unordered_set<std::string_view> found;
    for (const FoundFile& file : scanned.files) found.insert(file.path);
    Vanished vanished;
    for (const library::KnownFile& file : known) {
        if (file.gone || found.contains(file.path) || is_on_disk(file.path)) continue;
        vanished.all.push_back(file.id);
        if (is_below_any(file.path, scanned.folders) && !is_below_any(file.path, scanned.unread_folders))
            vanished.to_mark.push_back(file.id);
    }
    return vanished;
}

class Import {
public:
    Import(library::Intake& intake, std::vector<library::KnownFile> known, Scan scanned, const ImportOptions& options)
        : intake_(intake), scanned_(std::move(scanned)), options_(options), known_(std::move(known)) {
        report_.problems = std::move(scanned_.problems);
        report_.passed_over = std::move(scanned_.passed_over);
        report_.files.seen = static_cast<std::int64_t>(scanned_.files.size());
    }

    ImportReport run(const ProgressCallback& progress) {
        const Vanished vanished = find_vanished(known_, scanned_);
        intake_.set_vanished(vanished.all);
        const std::vector<ReadJob> jobs = jobs_to_do();
        if (!jobs.empty()) {
            ReadAhead ahead(jobs, options_, workers_for(jobs.size()));
            for (std::size_t i = 0; i < jobs.size(); ++i) {
                take(jobs[i], ahead.next());
                if (progress)
                    progress(
                        {static_cast<std::int64_t>(i + 1), static_cast<std::int64_t>(jobs.size()),
                         report_.settings.added + report_.settings.changed + report_.settings.same - same_unread_});
            }
        }
        intake_.touch_files(touches_);
        const auto gone = intake_.mark_gone(vanished.to_mark);
        report_.files.gone = gone.files;
        report_.settings.gone += gone.settings;
        report_.kinds = sorted_kinds();
        report_.in_library = intake_.odd_counts();
        return std::move(report_);
    }

private:
    std::vector<ReadJob> jobs_to_do() {
        KnownByPath by_path;
        for (const library::KnownFile& file : known_) by_path.emplace(file.path, &file);
        std::vector<ReadJob> jobs;
        std::vector<ReadJob> new_ones;
        for (const FoundFile& file : scanned_.files) {
            const auto known = by_path.find(file.path);
            if (known == by_path.end())
                new_ones.push_back({&file, nullptr});
            else if (is_unchanged(file, *known->second))
                count_unchanged(*known->second);
            else
                jobs.push_back({&file, known->second});
        }
        jobs.insert(jobs.end(), new_ones.begin(), new_ones.end());
        return jobs;
    }

    unsigned workers_for(std::size_t jobs) const {
        const unsigned asked =
            options_.workers != 0 ? options_.workers : std::max(1U, std::thread::hardware_concurrency());
        return static_cast<unsigned>(std::min<std::size_t>(std::min(asked, kMaxWorkers), jobs));
    }

    void count_unchanged(const library::KnownFile& known) {
        ++report_.files.unchanged;
        report_.settings.same += known.settings;
        same_unread_ += known.settings;
    }

    void take(const ReadJob& job, Reading&& reading) {
        const std::string shown_path = base::printable(job.file->path);
        switch (reading.outcome) {
            case Reading::Outcome::failed:
                ++report_.files.failed;
                report_.problems.push_back({shown_path, reading.remark.value_or("could not be read")});
                return;
            case Reading::Outcome::same_bytes:
                count_unchanged(*job.known);
                touches_.push_back({job.known->id, job.file->mtime_ns, options_.now_ns});
                return;
            case Reading::Outcome::read:
                break;
        }
        ++report_.files.read;
        if (reading.remark) report_.passed_over.push_back({shown_path, *reading.remark});
        const library::SettingCounts counts = intake_.store_file(reading.file);
        report_.settings.added += counts.added;
        report_.settings.changed += counts.changed;
        report_.settings.same += counts.same;
        report_.settings.gone += counts.gone;
        count_odd(reading);
    }

    void count_odd(Reading& reading) {
        report_.diagnostics += reading.odd;
        for (const collection::StoredSetting& setting : reading.file.settings)
            report_.with_errors += setting.errors > 0;
        for (std::string& text : reading.printed)
            if (report_.printed.size() < options_.most_printed) report_.printed.push_back(std::move(text));
        std::set<std::string_view> in_this_file;
        for (const collection::StoredDiagnostic& odd : reading.file.diagnostics) {
            collection::FoundKind& kind = kinds_[odd.code];
            if (kind.times++ == 0)
                kind = {std::string(odd.code), odd.severity, 1, 0, reading.file.shown, odd.line, odd.message};
            kind.files += in_this_file.insert(odd.code).second;
        }
    }

    std::vector<collection::FoundKind> sorted_kinds() {
        std::vector<collection::FoundKind> kinds;
        for (auto& [code, kind] : kinds_) kinds.push_back(std::move(kind));
        std::stable_sort(kinds.begin(), kinds.end(),
                         [](const collection::FoundKind& a, const collection::FoundKind& b) {
                             return std::tuple(a.severity, b.times) < std::tuple(b.severity, a.times);
                         });
        return kinds;
    }

    library::Intake& intake_;
    Scan scanned_;
    const ImportOptions& options_;
    const std::vector<library::KnownFile> known_;
    ImportReport report_;
    std::vector<library::Intake::Touch> touches_;
    std::map<std::string, collection::FoundKind, std::less<>> kinds_;  // by code
    std::int64_t same_unread_ = 0;
};

}  // namespace

ImportReport import_paths(const std::vector<std::filesystem::path>& paths, const std::filesystem::path& library_file,
                          const ImportOptions& options, const ProgressCallback& progress) {
    std::error_code ignored;
    if (!std::filesystem::exists(library_file, ignored)) {
        Scan scanned = scan(paths);
        if (scanned.files.empty() &&
            scanned.folders.empty()) {  // nothing that was asked for is there: no reason to make a library
            ImportReport report;
            report.problems = std::move(scanned.problems);
            report.passed_over = std::move(scanned.passed_over);
            return report;
        }
    }
    library::Intake intake = library::Intake::open(library_file);
    std::vector<library::KnownFile> known = intake.known_files();
    std::unordered_set<std::string> known_paths;
    for (const library::KnownFile& file : known) known_paths.insert(file.path);
    Scan scanned = scan(paths, known_paths, library_file);
    ImportReport report = Import(intake, std::move(known), std::move(scanned), options).run(progress);
    intake.close();
    return report;
}

}  // namespace importer
