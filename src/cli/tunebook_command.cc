// `gamut tunebook`: the chosen tunes as one ABC file.
#include <fmt/format.h>

#include <charconv>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "abc/moved.h"
#include "answers/tunebook.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/new_file.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"
#include "library/library.h"
#include "report/words/words.h"
#include "tune/record.h"

namespace cli {

namespace {

constexpr std::string_view kBest = "best";

std::string named(const tune::TuneRecord& record) {
    return fmt::format("{} {}", record.id.value, tune::title_of(record));
}

// What became of a tune that does not stand in the book as it was asked for.
std::string in_words(const answers::BookNote& note) {
    switch (note.what) {
        case answers::BookRemark::not_kept:
            return named(note.record) + ": its ABC was not kept; left out";
        case answers::BookRemark::never_fits:
            return named(note.record) + ": no move of an octave or less makes it fit; left out";
        case answers::BookRemark::sounds_wrong:
            return named(note.record) +
                   " is left out: " + (note.why.empty() ? "it would not sound as it should" : note.why);
        case answers::BookRemark::chord_lost:
            break;
    }
    return note.file + ":" + std::to_string(note.line) + ": " + named(note.record) + ": " + note.why;
}

class TunebookCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    bool is_best() const { return move_ == "best"; }
    std::optional<int> semitones() const;

    std::vector<std::string> which_;
    std::optional<std::string> move_, output_;
    FilterOptions filter_;
    ListOptions list_;
    std::string library_;
};

void TunebookCommand::add_to(CLI::App& command) {
    command.add_option("TUNE", which_, "ids or titles, in this order; without them all tunes that pass the filter");
    command
        .add_option("--move", move_,
                    "so many semitones up, or down with a minus; best: for each tune what lies best on --instrument")
        ->type_name("N|best");
    command.add_option("--output", output_, "write this new file, instead of to the terminal")->type_name("FILE");
    filter_.add_to(command, library_);
    list_.add_to(command);
    command.footer(
        "Example:  gamut tunebook --rhythm polka --move best --instrument whistle-d\nEvery tune is read back before it "
        "is written: what would not sound as it should is left out and told.");
}

std::optional<int> TunebookCommand::semitones() const {
    if (!move_ || *move_ == kBest) return std::nullopt;
    int number = 0;
    const char* const begin = move_->c_str() + (move_->starts_with('+') ? 1 : 0);
    const char* const end = move_->c_str() + move_->size();
    const auto read = std::from_chars(begin, end, number);
    if (read.ec != std::errc() || read.ptr != end || std::abs(number) > abc::kMostSemitones)
        throw Misuse(fmt::format("--move takes a whole number from -{0} to {0}, or best, not \"{1}\"",
                                 abc::kMostSemitones, *move_));
    return number;
}

int TunebookCommand::run() {
    semitones();  // a word that is no number is told first
    if (output_ && output_->empty()) throw Misuse("--output takes the name of a file, not \"\"");
    answers::TunebookQuestion question{which_, filter_.filter(), semitones().value_or(0), is_best()};
    const answers::Filter& filter = question.filter;
    if (is_best() && !filter.instrument && filter.players.empty())
        throw answers::Refused({answers::Part::move, answers::Reason::best_for_which});
    if (!which_.empty() && (answers::narrows(filter) || list_.is_given()))
        throw Misuse("tunes are named, so there is nothing to filter, sort or limit; leave out one or the other");
    if (is_best() && filter_.asks_for_missing())
        throw Misuse("--move best looks for a key in which nothing is missing; leave out --missing");
    list_.apply_to(question.filter.columns);
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunebookAnswer answer = answers::answer(library, question);
    tell_classes(library, question.filter.players);
    tell_left_out(answer.left_out_notes);
    for (const answers::Refusal& refusal : answer.not_found) tell(refusal);
    for (const answers::BookNote& note : answer.notes) write_notice("gamut: " + base::printable(in_words(note)) + "\n");
    if (answer.tunes == 0) write_notice("gamut: no tune to write\n");
    if (answer.tunes > 0 && output_) {
        NewFile(*output_, NewFile::For::anybody).write(answer.abc);
        write_notice("gamut: " + report::counted(answer.tunes, "tune", "tunes") + " written to " +
                     base::printable(*output_) + "\n");
    } else {
        write_answer(answer.abc);
    }
    return answer.is_whole() ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> tunebook_command() { return std::make_unique<TunebookCommand>(); }

}  // namespace cli
