// `gamut tunes`: which tunes.
#include <optional>
#include <string>

#include "answers/follow.h"
#include "answers/match.h"
#include "answers/tunes.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/titles_listed.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/follow_page.h"
#include "report/pages/listing.h"
#include "report/pages/match_page.h"

namespace cli {

namespace {

class TunesCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    int match() const;
    int follow() const;

    std::string library_;
    FilterOptions filter_;
    ListOptions list_;
    std::optional<std::string> heard_, match_, after_;
    bool at_start_ = false, all_ = false;
    Format format_;
};

void TunesCommand::add_to(CLI::App& command) {
    filter_.add_to(command, library_);
    filter_.add_scraps(command);
    CLI::Option* goes = command.add_option(
        "--goes", heard_,
        "goes like this somewhere, in any key, octave and rhythm, with a note or two wrong: \"G A B d e\"; "
        "letters without signs are tried with up to three sharps or flats");
    goes->type_name("PHRASE")->group(kWhichTunes);
    command.add_flag("--at-start", at_start_, "with --goes: the tune begins so")->needs(goes)->group(kWhichTunes);
    command
        .add_option("--match", match_,
                    "which of the titles in FILE, one a line, are in the library (- reads standard input); with --fits "
                    "or --instrument also which of them fit")
        ->type_name("FILE");
    command
        .add_option("--after", after_,
                    "what goes well after TUNE in a set, the best first: rhythm, key, how the two join, new notes, "
                    "opening and range are told of each")
        ->type_name("TUNE");
    list_.add_to(command);
    command.add_flag("--all", all_, "all rows on a terminal too, where without a filter a screenful is shown");
    add_format(command, format_);
    command.footer("Example:  gamut tunes --fits \"G:major&D:major A3..B5\" --rhythm jig");
}

int TunesCommand::run() {
    if (match_) return match();
    if (after_) return follow();
    if (filter_.asks_for_scraps()) throw Misuse("gamut tunes lists scraps as it is; --scraps goes with --after");
    answers::TunesQuestion question{filter_.filter(), list_.is_sorted(), heard_, at_start_};
    list_.apply_to(question.filter.columns);
    if (!heard_ && question.filter.columns.sort == collection::Sort::heard)
        throw Misuse("--sort heard needs --goes PHRASE");
    if (question.filter.columns.sort == collection::Sort::missing && question.filter.fits.empty() &&
        question.filter.players.empty() && !question.filter.instrument)
        throw Misuse("--sort missing needs --fits NOTES, --for PLAYER or --instrument NAME: lacking which notes?");
    if (!all_ && format_.wanted() == report::Format::text) question.screenful = rows_of_terminal();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answer.matched > 0 ? kDone : kDoneInPart;
}

int TunesCommand::match() const {
    if (after_) throw Misuse("--match and --after ask two questions; give one of them");
    if (heard_) throw Misuse("--match finds tunes by title, --goes by ear; give one of them");
    if (list_.is_given()) throw Misuse("--match keeps to the order of the list; leave out --sort and --limit");
    if (match_->empty()) throw Misuse("--match needs a file; - reads standard input");
    const answers::MatchQuestion question{filter_.filter(), titles_listed(*match_), listed_in(*match_)};
    if (question.filter.columns.settings) throw Misuse("--match tells of tunes; leave out --versions");
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::MatchAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answers::unsettled(answer) == 0 && !answer.lines.empty() ? kDone : kDoneInPart;
}

int TunesCommand::follow() const {
    if (heard_) throw Misuse("--after and --goes ask two questions; give one of them");
    answers::FollowQuestion question{filter_.filter(), *after_};
    if (!filter_.asks_for_scraps()) question.filter.scraps = answers::Scraps::left_aside;
    if (question.filter.columns.settings) throw Misuse("--after tells of tunes; leave out --versions");
    list_.apply_to(question.filter.columns);
    if (list_.is_sorted()) throw Misuse("--after puts the best first; leave out --sort");
    if (const auto limit = question.filter.columns.limit) question.limit = static_cast<std::size_t>(*limit);
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::FollowAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answer.matched > 0 ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> tunes_command() { return std::make_unique<TunesCommand>(); }

}  // namespace cli
