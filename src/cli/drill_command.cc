// `gamut drill`: what to play when a note is new.
#include <optional>
#include <string>

#include "abc/written_bar.h"
#include "answers/notes_asked.h"
#include "cli/commands.h"
#include "cli/instrument_option.h"
#include "cli/notes_option.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/ways_option.h"
#include "cli/write.h"
#include "music/key.h"
#include "report/drill_page.h"
#include "report/words.h"

namespace cli {

namespace {

std::string title_of(const report::DrillPage& page, const hands::Passage& passage) {
    if (passage.kind == hands::Passage::Kind::up_and_down) return "Up and down";
    return music::to_string(music::spell_midi(passage.about, page.fifths)) + " in its place";
}

// One tune, a part for each passage.
std::string abc_of(const report::DrillPage& page) {
    const std::string what = page.fresh.empty() ? "Notes" : report::note_list(page.fresh, page.fifths);
    std::string text =
        "X:1\nT:Drill: " + what + "\nM:4/4\nL:1/4\nK:" + music::to_string(music::name_at_fifths(page.fifths)) + "\n";
    for (const hands::Passage& passage : page.drill) {
        text += "P:" + title_of(page, passage) + "\n";
        for (std::size_t bar = 0; bar < passage.bars.size(); ++bar)
            text += abc::written_bar(passage.bars[bar], page.fifths) + (bar + 1 == passage.bars.size() ? " |]\n"
                                                                        : bar % 4 == 3                 ? " |\n"
                                                                                                       : " | ");
    }
    return text;
}

class DrillCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    std::optional<std::string> have_, fresh_;
    InstrumentOption instrument_;
    WaysOption ways_;
    std::string library_;
    bool abc_ = false;
    Format format_;
};

void DrillCommand::add_to(CLI::App& command) {
    command.add_option("--have", have_, "the notes you have, such as \"G:major&D:major A3..B5\"")->type_name("NOTES");
    command.add_option("--new", fresh_, "the new note, or notes")->type_name("NOTES");
    instrument_.add_to(command, "with the ways to make each note on it (gamut instrument list shows names)");
    ways_.add_to(command);
    add_library(command, library_);
    command.add_flag("--abc", abc_, "as ABC alone, for paper or for a player");
    command.add_flag("--json", format_.json, "as JSON, documented in schema/output.md");
    command.footer("Example:  gamut drill --have \"G:major&D:major A3..B5\" --new C5 --instrument bc21");
}

int DrillCommand::run() {
    if (!have_ && !fresh_) throw Misuse("gamut drill needs --have NOTES or --new NOTES: which notes?");
    if (abc_ && format_.json) throw Misuse("--abc and --json are two answers; ask for one");
    report::DrillPage page;
    page.instrument = ways_.judged(instrument_.instrument());
    if (page.instrument == nullptr && ways_.is_given())
        throw Misuse("--ways is about the ways on an instrument; say which with --instrument");
    std::vector<answers::LeftOutNotes> left_out;
    const music::NamedNotes named = names_in(library_);
    if (fresh_) page.fresh = answers::notes_asked(answers::Part::fresh, *fresh_, page.instrument, named, left_out);
    if (have_)
        page.have =
            answers::notes_asked(answers::Part::have, *have_, page.instrument, named, left_out).without(page.fresh);
    tell_left_out(left_out);
    const music::NoteSet all = page.have | page.fresh;
    page.fifths = abc::plainest_signature(all.midi_numbers());
    page.drill = hands::make_drill(all, page.fresh);
    page.abc = abc_of(page);
    if (abc_)
        write_answer(page.abc);
    else
        write(format_, page);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> drill_command() { return std::make_unique<DrillCommand>(); }

}  // namespace cli
