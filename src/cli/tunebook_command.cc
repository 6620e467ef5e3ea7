// `gamut tunebook`: the chosen tunes as one ABC file.
#include <fmt/format.h>
#include <charconv>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "abc/codes.h"
#include "abc/collected.h"
#include "abc/moved.h"
#include "abc/read.h"
#include "abc/sounds_moved.h"
#include "analysis/analyse.h"
#include "answers/tunes_asked.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/filter_options.h"
#include "cli/new_file.h"
#include "cli/refusal_words.h"
#include "cli/said_key.h"
#include "cli/terminal.h"
#include "cli/tune_or_tell.h"
#include "hands/move.h"
#include "instruments/instrument.h"
#include "library/library.h"
#include "report/words.h"
#include "tune/record.h"
#include "tune/setting.h"

namespace cli {

namespace {

constexpr std::string_view kBest = "best";

tune::Setting last_setting(const base::SourceFile& source) {
    base::Diagnostics unheard;
    auto settings = abc::read_settings(source, unheard);
    return settings.empty() ? tune::Setting() : std::move(settings.back());
}

std::string named(const tune::TuneRecord& record) {
    return fmt::format("{} {}", record.id.value, tune::title_of(record));
}

class TunebookCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    bool is_best() const { return move_ == "best"; }
    std::optional<int> semitones() const;
    std::vector<tune::TuneRecord> chosen(const answers::TunesAsked& asked) const;
    std::optional<hands::Move> best_move(const tune::Setting& setting, const tune::TuneRecord& record,
                                         const instruments::Instrument& instrument) const;
    bool add(const answers::TunesAsked& asked, const tune::TuneRecord& record, int number, std::string& book) const;

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

std::vector<tune::TuneRecord> TunebookCommand::chosen(const answers::TunesAsked& asked) const {
    if (which_.empty()) {
        collection::Selection selection = asked.selection(!is_best());
        list_.apply_to(selection);
        return asked.collection().select_tunes(selection).rows;
    }
    std::vector<tune::TuneRecord> records;
    for (const std::string& which : which_)
        if (auto record = tune_or_tell(asked.collection(), which)) records.push_back(std::move(*record));
    return records;
}

// Nothing where no move makes it fit.
std::optional<hands::Move> TunebookCommand::best_move(const tune::Setting& setting, const tune::TuneRecord& record,
                                                      const instruments::Instrument& instrument) const {
    const tune::TuneFacts facts = with_said_key(analysis::analyse(setting), record);
    const auto key = facts.key ? std::optional(facts.key->headline()) : std::nullopt;
    const hands::Move best = hands::rank_moves(facts.uses, key, instrument).front();
    return best.missing == 0 ? std::optional(best) : std::nullopt;
}

bool TunebookCommand::add(const answers::TunesAsked& asked, const tune::TuneRecord& record, int number,
                          std::string& book) const {
    const auto kept = asked.collection().abc_of(record.setting);
    if (!kept) {
        write_notice("gamut: " + base::printable(named(record)) + ": its ABC was not kept; left out\n");
        return false;
    }
    const base::SourceFile source(kept->file, kept->text);
    const tune::Setting setting = last_setting(source);
    const std::optional<hands::Move> best = is_best() ? best_move(setting, record, *asked.instrument()) : std::nullopt;
    if (is_best() && !best) {
        write_notice("gamut: " + base::printable(named(record)) +
                     ": no move of an octave or less makes it fit; left out\n");
        return false;
    }
    const int move = best ? best->semitones : semitones().value_or(0);
    const std::string from =
        kept->file + ":" + std::to_string(kept->line) +
        (move == 0 ? ""
                   : fmt::format(", moved {} {}", move > 0 ? "up" : "down",
                                 report::counted(std::abs(move), "semitone", "semitones"))) +
        (best && best->hardest_grade > 0 ? fmt::format(", hardest note of grade {}", best->hardest_grade) : "");
    const base::SourceFile alone(kept->file, abc::collected(source, number, base::printable(from)));
    base::Diagnostics hindrances;
    std::string text = abc::moved(alone, move, hindrances);
    tune::Setting again = last_setting(base::SourceFile(kept->file, text));
    again.number = setting.number;  // the one thing that was to change
    if (!abc::sounds_moved(setting, again, move)) {
        std::string why;
        for (const base::Diagnostic& found : hindrances.kept()) why = found.message;
        if (why.empty()) why = "it would not sound as it should";
        write_notice("gamut: " + base::printable(named(record) + " is left out: " + why) + "\n");
        return false;
    }
    for (const base::Diagnostic& found : hindrances.kept())
        if (found.code == abc::code::kChordLeftOut.token)
            write_notice("gamut: " +
                         base::printable(kept->file + ":" + std::to_string(kept->line) + ": " + named(record) + ": " +
                                         found.message) +
                         "\n");
    book += text;
    return true;
}

int TunebookCommand::run() {
    semitones();  // a word that is no number is told first
    if (output_ && output_->empty()) throw Misuse("--output takes the name of a file, not \"\"");
    const answers::Filter filter = filter_.filter();
    if (is_best() && !filter.instrument && filter.players.size() != 1)
        throw Misuse("--move best needs --instrument NAME, or --for a PLAYER who has one: best for which?");
    if (!which_.empty() && (answers::narrows(filter) || list_.is_given()))
        throw Misuse("tunes are named, so there is nothing to filter, sort or limit; leave out one or the other");
    if (is_best() && filter_.asks_for_missing())
        throw Misuse("--move best looks for a key in which nothing is missing; leave out --missing");
    const library::Library library = library::Library::open_existing(library_file(library_));
    const answers::TunesAsked asked(library, filter);
    if (is_best() && asked.instrument() == nullptr)
        throw Misuse("--move best needs --instrument NAME, or --for a PLAYER who has one: best for which?");
    const std::vector<tune::TuneRecord> records = chosen(asked);
    tell_left_out(asked.left_out());
    std::string book;
    int number = 0;
    for (const tune::TuneRecord& record : records)
        if (add(asked, record, number + 1, book)) ++number;
    const bool is_whole = number > 0 && static_cast<std::size_t>(number) == std::max(records.size(), which_.size());
    if (number == 0) write_notice("gamut: no tune to write\n");
    if (number > 0 && output_) {
        NewFile(*output_, NewFile::For::anybody).write(book);
        write_notice("gamut: " + report::counted(number, "tune", "tunes") + " written to " + base::printable(*output_) +
                     "\n");
    } else {
        write_answer(book);
    }
    return is_whole ? kDone : kDoneInPart;
}

}  // namespace

std::unique_ptr<Command> tunebook_command() { return std::make_unique<TunebookCommand>(); }

}  // namespace cli
