// `gamut tunes`: which tunes.
#include <string>

#include "answers/tunes_asked.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/follow_option.h"
#include "cli/heard_option.h"
#include "cli/match_option.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/follow_page.h"
#include "report/listing.h"
#include "report/match_page.h"

namespace cli {

namespace {

// Unless --limit asks for more or fewer. Source: house choice; who looks for one tune reads no further.
constexpr std::int64_t kRowsByEar = 20;

class TunesCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    int match() const;
    int follow();

    std::string library_;
    FilterOptions filter_;
    ListOptions list_;
    HeardOption heard_;
    MatchOption match_;
    FollowOption follow_;
    Format format_;
};

void TunesCommand::add_to(CLI::App& command) {
    filter_.add_to(command, library_);
    filter_.add_scraps(command);
    heard_.add_to(command);
    match_.add_to(command);
    follow_.add_to(command);
    list_.add_to(command);
    add_format(command, format_);
    command.footer("Example:  gamut tunes --fits \"G:major&D:major A3..B5\" --rhythm jig");
}

int TunesCommand::run() {
    if (match_.is_given()) return match();
    if (follow_.is_given()) return follow();
    if (filter_.asks_for_scraps()) throw Misuse("gamut tunes lists scraps as it is; --scraps goes with --after");
    answers::Filter filter = filter_.filter();
    list_.apply_to(filter.columns);
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked(library, filter);
    collection::Selection selection = asked.selection();
    tell_left_out(asked.left_out());
    report::Listing listing;
    if (heard_.is_given()) {
        listing.heard = heard_.apply_to(selection, library);
        if (!list_.is_sorted()) selection.sort = collection::Sort::heard;
        if (!selection.limit) selection.limit = kRowsByEar;
    } else if (selection.sort == collection::Sort::heard) {
        throw Misuse("--sort heard needs --goes PHRASE");
    }
    collection::Answer answer = library.select_tunes(selection);
    listing.have = selection.missing ? std::optional(selection.missing->have) : selection.fits;
    listing.by_setting = selection.settings;
    listing.matched = answer.matched;
    listing.left_out = answer.left_out;
    listing.gone = answer.gone;
    listing.why = asked.sieves_of(answer);
    listing.open_keys = answer.open_keys;
    listing.rows = std::move(answer.rows);
    write(format_, listing);
    return listing.matched > 0 ? kDone : kDoneInPart;
}

int TunesCommand::match() const {
    if (follow_.is_given()) throw Misuse("--match and --after ask two questions; give one of them");
    if (heard_.is_given()) throw Misuse("--match finds tunes by title, --goes by ear; give one of them");
    if (list_.is_given()) throw Misuse("--match keeps to the order of the list; leave out --sort and --limit");
    const library::Library library = library::Library::open_existing(library_file(library_));
    const report::MatchPage page = match_.answer(library, filter_);
    write(format_, page);
    return report::unsettled(page) == 0 && !page.lines.empty() ? kDone : kDoneInPart;
}

int TunesCommand::follow() {
    if (heard_.is_given()) throw Misuse("--after and --goes ask two questions; give one of them");
    const library::Library library = library::Library::open_existing(library_file(library_));
    filter_.leave_scraps_aside();
    const report::FollowPage page = follow_.answer(library, filter_, list_);
    write(format_, page);
    return page.matched > 0 ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> tunes_command() { return std::make_unique<TunesCommand>(); }

}  // namespace cli
