// `gamut path`: which note next.
#include <optional>
#include <string>

#include "answers/path.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/interrupt.h"
#include "cli/path_goal.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/path_page.h"

namespace cli {

namespace {

class PathCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<std::string> have_;
    bool is_brief_ = false;
    PathGoal goal_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void PathCommand::add_to(CLI::App& command) {
    command
        .add_option("--have", have_,
                    "the notes you have, such as \"G:major&D:major A3..B5\"; without it the path starts from nothing")
        ->type_name("NOTES");
    command.add_flag("--brief", is_brief_, "without the reasons of each step, which take most of the time");
    goal_.add_to(command);
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer(
        "Example:  gamut path --have \"G:major&D:major A3..B5\" --steps 3\nBetween orders that cost the same: what "
        "opens more now, then naturals, then the nearer note, then the lower.");
}

int PathCommand::run() {
    answers::PathQuestion question;
    goal_.apply_to(question);
    question.filter = filter_.filter();
    question.have = have_;
    question.is_brief = is_brief_;
    const Interrupt interrupt;
    question.limits.stop = &interrupt.has_come();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::PathAnswer answer = answers::answer(library, question);
    const bool is_stopped = interrupt.has_come();
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out);
    if (answer.without_count > 0)
        write_notice("gamut: " + std::to_string(answer.without_count) + " of " + std::to_string(answer.tunes) +
                     " tunes have no count and weigh 1; gamut mark TUNE --count N gives them one\n");
    write(format_, answer);
    if (is_stopped) write_notice("gamut: stopped; this is the best found so far\n");
    return answer.plan.tunes > 0 && answer.without_count == 0 && !is_stopped ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> path_command() { return std::make_unique<PathCommand>(); }

}  // namespace cli
