// `gamut instrument`: what an instrument can play and how.
#include <optional>
#include <string>

#include "answers/fit.h"
#include "answers/instrument_named.h"
#include "answers/notes_asked.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/instrument_option.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "cli/write.h"
#include "instruments/known.h"
#include "library/library.h"
#include "music/pitch.h"
#include "report/pages/fit_page.h"
#include "report/pages/instrument_page.h"

namespace cli {

namespace {

std::vector<const instruments::Instrument*> all_instruments() {
    std::vector<const instruments::Instrument*> all;
    for (const std::string& id : instruments::ids()) all.push_back(instruments::find(id));
    return all;
}

// ` The nearest below is B4, the nearest above D5.`
std::string nearest_in_words(const instruments::Instrument& instrument, int midi) {
    const instruments::InstrumentNote* below = nullptr;
    const instruments::InstrumentNote* above = nullptr;
    for (const instruments::InstrumentNote& note : instrument.notes) {
        if (note.written < midi) below = &note;
        if (note.written > midi && above == nullptr) above = &note;
    }
    const auto name = [](const instruments::InstrumentNote& note) {
        return music::to_string(music::spell_midi(note.written, 1));
    };
    std::string words;
    if (below) words += "; the nearest below is " + name(*below);
    if (above) words += std::string(below ? ", the nearest above " : "; the nearest above is ") + name(*above);
    return words;
}

class InstrumentCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    int list() const;
    int show() const;
    int fit() const;

    CLI::App* list_ = nullptr;
    CLI::App* show_ = nullptr;
    CLI::App* fit_ = nullptr;
    std::optional<std::string> name_, file_, where_;
    std::string library_;
    FilterOptions filter_;
    Format format_;
};

void InstrumentCommand::add_to(CLI::App& command) {
    command.require_subcommand(1);
    list_ = command.add_subcommand("list", "the instruments there are");
    add_format(*list_, format_);
    show_ = command.add_subcommand("show", "one of them: a drawing, every note, how it is made and how hard it is");
    show_->add_option("NAME", name_, "as gamut instrument list has it");
    show_->add_option("--instrument-file", file_, "an instrument of your own, described in FILE")->type_name("FILE");
    show_->add_option("--where", where_, "only this note, every way to make it; C means any octave")->type_name("NOTE");
    add_format(*show_, format_);
    show_->footer("Example:  gamut instrument show bc21 --where C5");
    fit_ = command.add_subcommand("fit", "how many of your tunes each instrument can play: as they are, folded, moved");
    filter_.add_to(*fit_, library_);
    add_format(*fit_, format_);
    fit_->footer("With --instrument or --instrument-file only that one.\nExample:  gamut instrument fit --rhythm reel");
    command.footer("Example:  gamut instrument show bc21");
}

int InstrumentCommand::list() const {
    write(format_, report::InstrumentsPage{all_instruments()});
    return kDone;
}

int InstrumentCommand::show() const {
    if (name_.has_value() == file_.has_value())
        throw Misuse("gamut instrument show needs a NAME or --instrument-file FILE: which instrument?");
    std::optional<instruments::Instrument> own;
    if (file_) own = read_own_instrument(*file_);
    report::InstrumentPage page{own ? &*own : &answers::instrument_named(*name_, answers::Part::none), std::nullopt};
    if (where_) {
        const music::NoteSet asked = answers::read_part(answers::Part::where, *where_, music::read_note_anywhere);
        page.where = asked & page.instrument->note_set();
        if (page.where->empty()) {
            write_notice("gamut: " + page.instrument->title + " has no " + *where_ +
                         (asked.size() == 1 ? nearest_in_words(*page.instrument, asked.lowest()) : std::string()) +
                         "\n");
            return kDoneInPart;
        }
    }
    write(format_, page);
    return kDone;
}

int InstrumentCommand::fit() const {
    const answers::FitQuestion question{filter_.filter()};
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::FitAnswer answer = answers::answer(library, question);
    tell_left_out(answer.left_out_notes);
    write(format_, answer);
    return answer.tunes > 0 ? kDone : kDoneInPart;
}

int InstrumentCommand::run() {
    if (*list_) return list();
    return *show_ ? show() : fit();
}

}  // namespace

std::unique_ptr<Command> instrument_command() { return std::make_unique<InstrumentCommand>(); }

}  // namespace cli
