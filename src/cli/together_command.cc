// `gamut together`: what several players can play, and the one note that would open most for all of them.
#include <string>

#include "answers/together.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/together_page.h"

namespace cli {

namespace {

class TogetherCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void TogetherCommand::add_to(CLI::App& command) {
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer(
        "Give --fits once for each player: \"NAME=NOTES\", \"NAME on INSTRUMENT=NOTES\", or \"NAME on INSTRUMENT\".\n"
        "Example:  gamut together --fits \"Ina on whistle-d=D:major\" --fits \"Olli on bc21=G:major&D:major\"");
}

int TogetherCommand::run() {
    if (filter_.asks_for_missing()) throw Misuse("gamut together names what is missing by itself; leave out --missing");
    const answers::TogetherQuestion question{filter_.filter()};
    if (question.filter.fits.empty() && question.filter.players.empty())
        throw answers::Refused({answers::Part::players, answers::Reason::two_players});
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TogetherAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answer.tunes > 0 ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> together_command() { return std::make_unique<TogetherCommand>(); }

}  // namespace cli
