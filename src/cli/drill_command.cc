// `gamut drill`: what to play when a note is new.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/drill.h"
#include "answers/notes_asked.h"
#include "cli/commands.h"
#include "cli/instrument_option.h"
#include "cli/notes_option.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "cli/write.h"
#include "library/library.h"
#include "report/pages/drill_page.h"

namespace cli {

namespace {

class DrillCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<std::string> have_, fresh_, player_;
    InstrumentOption instrument_;
    WaysOption ways_;
    std::string library_;
    bool abc_ = false;
    Format format_;
};

void DrillCommand::add_to(CLI::App& command) {
    command.add_option("--have", have_, "the notes you have, such as \"G:major&D:major A3..B5\"")->type_name("NOTES");
    command.add_option("--new", fresh_, "the new note, or notes")->type_name("NOTES");
    command
        .add_option("--for", player_,
                    "the notes and the instrument of this player, or of this class, where not given otherwise")
        ->type_name("PLAYER");
    instrument_.add_to(command, "with the ways to make each note on it (gamut instrument list shows names)");
    ways_.add_to(command);
    add_library(command, library_);
    command.add_flag("--abc", abc_, "as ABC alone, for paper or for a player");
    add_format_without_csv(command, format_);
    command.footer("Example:  gamut drill --have \"G:major&D:major A3..B5\" --new C5 --instrument bc21");
}

int DrillCommand::run() {
    if (!have_ && !fresh_ && !player_) throw Misuse("which notes? give --have NOTES, --new NOTES or --for PLAYER");
    if (abc_ && format_.wanted() != report::Format::text)
        throw Misuse(std::string("--abc and ") + (format_.json ? "--json" : "--html") +
                     " are two answers; ask for one");
    answers::DrillQuestion question;
    question.instrument = instrument_.shared();
    if (player_) {
        const library::Library library = library::Library::open_existing(library_file(library_));
        tell_classes(library, {*player_});
        question = answers::drill_for(library, *player_, std::move(question));
    }
    question.instrument = ways_.judged(question.instrument);
    if (question.instrument == nullptr && ways_.is_given())
        throw Misuse("--ways is about the ways on an instrument; say which with --instrument");
    std::vector<answers::LeftOutNotes> left_out;
    const music::NamedNotes named = names_in(library_);
    const auto notes = [&](answers::Part part, const std::string& text) {
        return answers::notes_asked(part, text, question.instrument.get(), named, left_out);
    };
    if (fresh_) question.fresh = notes(answers::Part::fresh, *fresh_);
    if (have_) question.have = notes(answers::Part::have, *have_);
    tell_left_out(left_out);
    const answers::DrillAnswer answer = answers::answer(question);
    if (abc_)
        write_answer(answer.abc);
    else
        write(format_, answer);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> drill_command() { return std::make_unique<DrillCommand>(); }

}  // namespace cli
