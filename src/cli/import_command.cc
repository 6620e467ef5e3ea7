// `gamut import`: files and folders into the library.
#include <string>
#include <vector>

#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "importer/import.h"
#include "report/pages/import_summary.h"

namespace cli {

namespace {

// One line that is written over, on a terminal only.
void show_progress(const importer::Progress& progress) {
    const std::string line = "\rreading " + std::to_string(progress.files_done) + " of " +
                             std::to_string(progress.files_total) + " files, " + std::to_string(progress.settings) +
                             " versions ";
    write_progress(progress.files_done == progress.files_total ? "\r\x1b[K" : line);
}

// Where little was found it is shown whole; else by kinds, in the answer.
bool are_printed(const importer::ImportReport& report) {
    return static_cast<std::int64_t>(report.printed.size()) == report.diagnostics.total();
}

void print_findings(const importer::ImportReport& report) {
    std::string text;
    if (are_printed(report))
        for (const std::string& printed : report.printed) text += printed;
    for (const importer::PathRemark& remark : report.passed_over)
        text += "gamut: " + remark.path + " " + remark.sentence + "\n";
    for (const importer::PathRemark& problem : report.problems)
        text += "gamut: " + problem.path + " " + problem.sentence + "\n";
    write_notice(text);
}

class ImportCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::vector<std::string> paths_;
    std::string library_;
    Format format_;
};

void ImportCommand::add_to(CLI::App& command) {
    command.add_option("PATH", paths_, "ABC files, or folders of them")->required();
    add_library(command, library_);
    add_format_without_csv(command, format_);
    command.footer("Your own files are never changed.\nExample:  gamut import sample-library");
}

int ImportCommand::run() {
    const std::vector<std::filesystem::path> paths(paths_.begin(), paths_.end());
    const std::filesystem::path library = library_file(library_);
    importer::ImportOptions options;
    options.now_ns = now_ns();
    const importer::ImportReport report = importer::import_paths(
        paths, library, options, notices_go_to_terminal() ? show_progress : importer::ProgressCallback());
    has_kept_ = report.files.read > 0 || report.files.gone > 0;
    print_findings(report);
    const report::ImportSummary summary{
        report.files.seen,    report.files.read,     report.files.unchanged,  report.files.failed,
        report.files.gone,    report.settings.added, report.settings.changed, report.settings.same,
        report.settings.gone, report.diagnostics,    report.in_library,       report.with_errors,
        report.kinds,         are_printed(report),   library.string()};
    if (!is_quiet() || format_.wanted() != report::Format::text) write(format_, summary);
    const bool found_nothing = report.files.seen == 0 && report.files.gone == 0;
    if (found_nothing && report.problems.empty()) write_notice("gamut: no ABC file was found there\n");
    return report.is_complete() && !found_nothing && report.diagnostics.errors == 0 ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> import_command() { return std::make_unique<ImportCommand>(); }

}  // namespace cli
