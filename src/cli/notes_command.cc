// `gamut notes`: what each note is worth, and which few give most.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/notes.h"
#include "cli/commands.h"
#include "cli/default_words.h"
#include "cli/filter_options.h"
#include "cli/interrupt.h"
#include "cli/limit_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/notes_page.h"

namespace cli {

namespace {

// Source: house choice.
const std::vector<int> kPercents{50, 80, 90, 95};

std::string percents_in_words() {
    std::string words;
    for (const int percent : kPercents) words += (words.empty() ? "" : " ") + std::to_string(percent);
    return words;
}

class NotesCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<std::string> have_;
    std::string by_ = "pitch";
    std::vector<int> percents_ = kPercents;
    std::optional<std::int64_t> best_start_;
    LimitOptions limits_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void NotesCommand::add_to(CLI::App& command) {
    command.add_option("--have", have_, "the notes you have, such as \"G:major&D:major A3..B5\"")->type_name("NOTES");
    command.add_option("--by", by_, "pitch: every note by itself (default); name: a note name in all octaves as one")
        ->type_name("pitch|name");
    command
        .add_option(
            "--percent", percents_,
            "the fewest notes that give N % of the tunes; several are allowed" + default_words(percents_in_words()))
        ->type_name("N");
    command
        .add_option("--best-start", best_start_,
                    "the K notes (with --by name: names) that open most tunes from nothing")
        ->type_name("K");
    limits_.add_to(command);
    filter_.add_to(command, library_);
    add_format(command, format_);
    command.footer("Example:  gamut notes --have \"G:major&D:major A3..B5\"\n--csv gives the table of notes alone.");
}

int NotesCommand::run() {
    if (by_ != "pitch" && by_ != "name") throw Misuse("--by takes pitch or name, not \"" + by_ + "\"");
    for (const int percent : percents_)
        if (percent < 1 || percent > 100)
            throw Misuse("--percent takes a number from 1 to 100, not " + std::to_string(percent));
    if (best_start_ && *best_start_ <= 0) throw Misuse("--best-start takes a number from 1 up");

    limits_.check();
    answers::NotesQuestion question;
    question.filter = filter_.filter();
    question.have = have_;
    question.by_name = by_ == "name";
    question.percents = percents_;
    question.best_start = best_start_;
    limits_.apply_to(question.limits);
    const Interrupt interrupt;
    question.limits.stop = &interrupt.has_come();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::NotesAnswer answer = answers::answer(library, question);
    const bool is_stopped = interrupt.has_come();
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    if (is_stopped) write_notice("gamut: stopped; these are the best found so far\n");
    return answer.tunes > 0 && !is_stopped ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> notes_command() { return std::make_unique<NotesCommand>(); }

}  // namespace cli
