// `gamut evening`: a set list for so many minutes.
#include <string>
#include <vector>

#include "answers/evening.h"
#include "cli/commands.h"
#include "cli/default_words.h"
#include "cli/filter_options.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/evening_page.h"

namespace cli {

namespace {

int number_of(const char* option, int given, int least, int most) {
    if (given < least || given > most)
        throw Misuse(std::string(option) + " takes a number from " + std::to_string(least) + " to " +
                     std::to_string(most) + ", not " + std::to_string(given));
    return given;
}

class EveningCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    repertoire::EveningGoal goal() const;

    int minutes_ = 0, times_ = repertoire::EveningGoal{}.times, in_set_ = repertoire::EveningGoal{}.in_set;
    std::string pace_{repertoire::to_string(repertoire::EveningGoal{}.pace)};
    bool dance_ = false, as_printed_ = false;
    std::vector<std::string> without_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void EveningCommand::add_to(CLI::App& command) {
    command.add_option("--minutes", minutes_, "to be filled with playing")->type_name("N")->required();
    command
        .add_option(
            "--times", times_,
            "each tune is played through, 1 to " + std::to_string(repertoire::kMostTimes) + default_words(times_))
        ->type_name("N");
    command
        .add_option("--in-set", in_set_,
                    "tunes of a set at most, 2 to " + std::to_string(repertoire::kMostInSet) + default_words(in_set_))
        ->type_name("N");
    command.add_option("--pace", pace_, "easy, as in a first year, or session" + default_words(pace_))
        ->type_name("easy|session");
    command.add_flag("--dance", dance_, "only tunes of whole parts of eight bars");
    command.add_flag("--as-printed", as_printed_, "parts printed without repeats are played once, not twice");
    command.add_option("--without", without_, "never this tune; may be given again")->type_name("TUNE");
    filter_.add_to(command, library_);
    filter_.add_scraps(command);
    filter_.leave_scraps_aside();
    add_format(command, format_);
    command.footer("Example:  gamut evening --minutes 20 --fits \"G:major&D:major A3..B5\"");
}

repertoire::EveningGoal EveningCommand::goal() const {
    repertoire::EveningGoal goal;
    goal.minutes = number_of("--minutes", minutes_, 1, repertoire::kMostMinutes);
    goal.times = number_of("--times", times_, 1, repertoire::kMostTimes);
    goal.in_set = number_of("--in-set", in_set_, 2, repertoire::kMostInSet);
    const auto pace = repertoire::parse_pace_kind(pace_);
    if (!pace) throw Misuse("--pace takes easy or session, not \"" + pace_ + "\"");
    goal.pace = *pace;
    goal.for_dance = dance_;
    goal.as_printed = as_printed_;
    return goal;
}

int EveningCommand::run() {
    const answers::EveningQuestion question{filter_.filter(), without_, goal()};
    if (question.filter.columns.settings) throw Misuse("gamut evening counts tunes; leave out --versions");
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::EveningAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answer.evening.is_filled ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> evening_command() { return std::make_unique<EveningCommand>(); }

}  // namespace cli
