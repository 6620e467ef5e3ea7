// `gamut tune`: everything about one tune.
#include <optional>
#include <string>

#include "answers/beside.h"
#include "answers/too_hard.h"
#include "answers/tune.h"
#include "cli/commands.h"
#include "cli/instrument_option.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/beside_page.h"
#include "report/pages/too_hard_page.h"
#include "report/pages/tune_page.h"

namespace cli {

namespace {

class TuneCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::string which_;
    std::optional<std::string> beside_, player_;
    InstrumentOption instrument_;
    std::optional<std::string> have_;
    WaysOption ways_;
    std::string library_;
    Format format_;
};

void TuneCommand::add_to(CLI::App& command) {
    command.add_option("TUNE", which_, "an id, a title, or a part of one")->required();
    instrument_.add_to(command, "how it lies on this instrument, with the buttons, fingers or holes under the notes",
                       "Options", "--on,--instrument");
    command.add_option("--have", have_, "the notes you have: which of the tune's are missing, and what can be done")
        ->type_name("NOTES");
    ways_.add_to(command);
    command.add_option("--beside", beside_, "the bars in which this tune differs, side by side in one key")
        ->type_name("TUNE");
    command
        .add_option("--for", player_,
                    "is it too hard for this player? what is new in it, beside the hardest known tune")
        ->type_name("PLAYER");
    add_library(command, library_);
    add_format_without_csv(command, format_);
    command.footer(
        "Example:  gamut tune kettle --on whistle-d\n          gamut tune 14 --beside 23\n          gamut tune kettle "
        "--for Ina");
}

int TuneCommand::run() {
    const answers::TuneQuestion question{which_, instrument_.shared(), have_, ways_.are_any()};
    if (question.instrument == nullptr && ways_.is_given())
        throw Misuse("--ways is about the ways on an instrument; say which with --on");
    const library::Library library = library::Library::open_existing(library_file(library_));
    if (player_) {
        if (instrument_.is_given() || have_ || beside_)
            throw Misuse("--for asks another question than --on, --have and --beside; leave them out");
        const answers::TooHardAnswer page = answers::answer(library, answers::TooHardQuestion{which_, *player_});
        write(format_, page);
        return kDone;
    }
    if (beside_) {
        if (instrument_.is_given() || have_)
            throw Misuse("--beside asks another question than --on and --have; leave them out");
        const answers::BesideAnswer page = answers::answer(library, answers::BesideQuestion{which_, *beside_});
        write(format_, page);
        return kDone;
    }
    const answers::TuneAnswer answer = answers::answer(library, question);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> tune_command() { return std::make_unique<TuneCommand>(); }

}  // namespace cli
