// `gamut tune`: everything about one tune.
#include <algorithm>
#include <charconv>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "cli/commands.h"
#include "library/library.h"
#include "report/listing.h"
#include "report/tune_page.h"

namespace cli {

namespace {

// By id or title. Several matches are listed and are a misuse; none is an answer.
std::vector<tune::TuneRecord> tunes_named(const library::Library& library, const std::string& which) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error == std::errc() && end == which.data() + which.size())
        if (auto record = library.tune_by_id({id})) return {*record};
    return library.tunes_titled(which);
}

// The facts of a setting are made again from its own text, which the library keeps.
report::TunePage page_of(const library::Library& library, const tune::TuneRecord& record) {
    report::TunePage page{record, {}, library.settings_of(record.id), false, {}};
    const auto kept = library.abc_of(record.setting);
    if (!kept) return page;
    page.is_gone = kept->gone;
    page.abc = kept->text;
    const base::SourceFile source(kept->file, kept->text);
    base::Diagnostics diagnostics;
    const auto settings = abc::read_settings(source, diagnostics);
    if (!settings.empty()) page.facts = analysis::analyse(settings.back());
    return page;
}

}  // namespace

CLI::App* TuneCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand("tune", "everything about one tune: key and why, notes and where they stand");
    command->add_option("TUNE", which_, "an id, a title, or a part of one")->required();
    add_library(*command, library_);
    command->add_flag("--json", format_.json, "as JSON");
    command->footer("Example:  gamut tune kettle");
    return command;
}

int TuneCommand::run() {
    const library::Library library = library::Library::open_existing(library_file(library_));
    const std::vector<tune::TuneRecord> found = tunes_named(library, which_);
    if (found.empty()) {
        write_notice("gamut: no tune has the id or title \"" + which_ + "\"; gamut tunes --title WORD looks for a word\n");
        return kDoneInPart;
    }
    if (found.size() > 1) {
        report::Listing listing;
        listing.rows = found;
        listing.matched = static_cast<std::int64_t>(found.size());
        write_notice(report::render_text(report::describe_listing(listing), page_of_terminal()));
        throw Misuse("\"" + which_ + "\" fits several tunes; choose one by its id");
    }
    const report::TunePage page = page_of(library, found.front());
    if (format_.json) write_answer(report::tune_json(page));
    else write_answer(report::describe_tune(page));
    return kDone;
}

}  // namespace cli
