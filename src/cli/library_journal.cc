// `gamut library export`, `import`, `said`, `take-back`, `erase` and `rebuild`: all that people said, as a whole.
#include "answers/term_names.h"
#include "base/failure.h"
#include "cli/library_command.h"
#include "cli/players_fetched.h"
#include "cli/shell_word.h"
#include "cli/text_file.h"
#include "cli/write.h"
#include "library/journal.h"
#include "library/name_said.h"
#include "report/pages/journal_page.h"
#include "report/words/words.h"

namespace cli {

namespace {

std::string entries(std::int64_t number) { return report::counted(number, "entry", "entries"); }

report::Document sentence(std::string text) { return {{report::Paragraph{std::move(text)}}}; }

}  // namespace

int LibraryCommand::export_said() {
    require_file();
    const std::filesystem::path library = library_file(library_);
    if (file_ == "-") {
        write_answer(people::write_journal(library::journal_of(library)));
        return kDone;
    }
    const std::int64_t number = library::export_journal(library, file_);
    write_answer(sentence(file_ + " holds all that was said: " + entries(number) + "."));
    return kDone;
}

int LibraryCommand::import_said() {
    require_file();
    std::vector<people::Link> links;
    try {
        links = people::read_journal(text_of_file(file_));
    } catch (const people::SayingFault& fault) {
        throw base::Failure("take in", file_, fault.what());
    }
    const library::TakenIn taken = library::take_in_journal(library_file(library_), links);
    has_kept_ = taken.added > 0 || taken.erased > 0;
    report::Document document =
        sentence(taken.added == 0 ? "There is nothing new in " + file_ + "."
                                  : entries(taken.added) + " of the journal taken in; " +
                                        std::to_string(static_cast<std::int64_t>(links.size()) - taken.added) +
                                        " were here already.");
    if (taken.erased > 0)
        document.blocks.emplace_back(
            report::Paragraph{entries(taken.erased) + " had been erased there, and now here too."});
    if (taken.waiting > 0)
        document.blocks.emplace_back(report::Paragraph{
            entries(taken.waiting) + (taken.waiting == 1 ? " is of a tune that is" : " are of tunes that are") +
            " not here yet. Import the tunes, and what was said of them counts."});
    write_answer(document);
    return kDone;
}

int LibraryCommand::said() {
    const std::vector<people::Entry> entries = library::all_said(library_file(library_));
    const report::JournalPage page{entries, limit_};
    write(format_, page);
    return kDone;
}

int LibraryCommand::take_back() {
    const std::filesystem::path library = library_file(library_);
    const report::PlayerNames names = report::names_of_players(library::all_said(library));
    const std::vector<people::Entry> last = library::take_back_last(library, today());
    if (last.empty()) {
        write_answer(sentence("There is nothing to take back."));
        return kDoneInPart;
    }
    has_kept_ = true;
    write_answer(report::describe_taken_back(last, names));
    return kDone;
}

int LibraryCommand::erase() {
    const std::filesystem::path file = library_file(library_);
    tune::PlayerName name;
    try {
        name = tune::read_player_name(name_);
    } catch (const tune::PlayerNameFault& fault) {
        throw Misuse(fault.what());
    }
    if (const auto player = library::Library::open_existing(file).player_named(name.text))
        throw Misuse("there is a player \"" + player->player.name.text + "\"; gamut player remove " +
                     shell_word(player->player.name.text) + " comes first");
    const auto without = [&](const std::string& text) { return answers::unnamed_in_term(text, name); };
    const std::vector<people::Entry> found =
        is_sure_ ? library::erase_saying(file, name, without, today()) : library::entries_saying(file, name, without);
    if (found.empty()) {
        write_answer(sentence("Nothing that was said has the name " + name.text + " in it."));
        return kDoneInPart;
    }
    const std::string number = entries(static_cast<std::int64_t>(found.size()));
    if (is_sure_) {
        has_kept_ = true;
        write_answer(sentence(number + " with the name " + name.text + " erased for ever." + copies_told(file)));
        return kDone;
    }
    write_answer(
        report::describe(report::JournalPage{found, found.size(), report::names_of_players(library::all_said(file))}));
    write_notice("gamut: " + number + " with the name " + name.text +
                 "; --yes erases them for ever: tags and kinds are taken away, terms of that name forgotten, reasons "
                 "left empty; nothing was erased\n");
    return kDoneInPart;
}

int LibraryCommand::rebuild() {
    const std::int64_t number = library::rebuild_kept(library_file(library_));
    has_kept_ = true;
    write_answer(sentence("Made anew from the journal: " + entries(number) + "."));
    return kDone;
}

}  // namespace cli
