// `gamut tunes`: which tunes.
#include "cli/commands.h"
#include "library/library.h"
#include "report/csv.h"
#include "report/listing.h"

namespace cli {

CLI::App* TunesCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand("tunes", "list tunes, by notes, key, rhythm, range or title");
    filter_.add_to(*command, library_);
    heard_.add_to(*command);
    list_.add_to(*command);
    add_format(*command, format_);
    command->footer("Example:  gamut tunes --fits \"G:major&D:major A3..B5\" --rhythm jig");
    return command;
}

int TunesCommand::run() {
    library::Selection selection = filter_.selection();
    list_.apply_to(selection);
    const library::Library library = library::Library::open_existing(library_file(library_));
    report::Listing listing;
    if (heard_.is_given()) {
        listing.heard = heard_.apply_to(selection, library);
        if (!list_.is_sorted()) selection.sort = library::Sort::heard;
    } else if (selection.sort == library::Sort::heard) {
        throw Misuse("--sort heard needs --goes PHRASE");
    }
    library::Answer answer = library.select_tunes(selection);
    listing.have = selection.missing ? std::optional(selection.missing->have) : selection.fits;
    listing.by_setting = selection.settings;
    listing.matched = answer.matched;
    listing.left_out = answer.left_out;
    listing.gone = answer.gone;
    listing.why = filter_.sieves_of(answer);
    listing.rows = std::move(answer.rows);
    if (format_.json)
        write_answer(report::listing_json(listing));
    else if (format_.csv)
        write_answer(report::render_csv(report::tabulate_listing(listing)));
    else
        write_answer(report::describe_listing(listing));
    return listing.matched > 0 ? kDone : kDoneInPart;
}

}  // namespace cli
