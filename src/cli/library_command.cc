// `gamut library`: where everything is kept, and how it is kept safe.
#include <algorithm>

#include "answers/stored_request.h"
#include "cli/default_words.h"
#include "cli/library_command.h"
#include "cli/shared_options.h"
#include "cli/shell_word.h"
#include "cli/write.h"
#include "library/backup.h"
#include "library/holdings.h"
#include "library/salvage.h"
#include "report/pages/library_page.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

namespace {

report::LibraryPage page_of(const std::filesystem::path& file) {
    const library::Holdings held = library::holdings_of(file);
    report::LibraryPage page;
    page.file = file.string();
    page.bytes = held.bytes;
    page.may_others_read = held.may_others_read;
    page.files = held.computed.files;
    page.tunes = held.computed.tunes;
    page.settings = held.computed.settings;
    page.files_gone = held.computed.files_gone;
    page.settings_gone = held.computed.settings_gone;
    page.tagged = held.tagged;
    page.counted = held.counted;
    page.verdicts = held.verdicts;
    page.players = held.players;
    page.events = held.events;
    page.wishes = held.wishes;
    page.exclusions = held.exclusions;
    page.terms = held.terms;
    for (const library::Backup& backup : held.backups) page.backups.emplace_back(backup.file.string(), backup.bytes);
    return page;
}

std::string_view word_of(library::Part part) {
    return part == library::Part::file ? "file" : part == library::Part::computed ? "computed" : "said";
}

// What is computed can be made anew from the files; the rest comes from a backup or from what can still be read.
std::vector<std::string> advice(const library::Soundness& soundness, const std::filesystem::path& file) {
    if (soundness.is_sound()) return {};
    std::vector<std::string> sentences;
    const auto is_said = [](const library::Flaw& flaw) { return flaw.part == library::Part::said; };
    if (soundness.is_journal_sound && std::all_of(soundness.flaws.begin(), soundness.flaws.end(), is_said)) {
        sentences.push_back(
            "The journal of all that was said is whole. gamut library rebuild repairs the rest; nothing is lost.");
        return sentences;
    }
    std::string newest;
    for (const std::filesystem::path& backup : library::backups_of(file)) newest = backup.string();
    sentences.push_back("Do not go on with this library: what is said now may be lost. Its file stays as it is.");
    sentences.push_back("With a backup: gamut library restore " +
                        (newest.empty() ? std::string("FILE") : shell_word(newest)) +
                        " brings it back as it was then, and keeps this one beside it.");
    sentences.push_back(
        "Without: gamut library salvage NEW reads all that can be read into a new library, gamut library restore NEW "
        "puts it in place, and gamut import reads your tunes again.");
    return sentences;
}

}  // namespace

void LibraryCommand::add_to(CLI::App& command) {
    add_library(command, library_);
    add_format_without_csv(command, format_);
    command.require_subcommand(0, 1);
    command.footer(
        "Example:  gamut library backup ~/gamut-backup.db\n"
        "Gamut itself keeps a backup beside the library before it is brought up to date and before restore: the last "
        "five stay.");
    const auto word = [&](const char* name, const char* help, const char* file, int (LibraryCommand::*does)()) {
        CLI::App* below = command.add_subcommand(name, help);
        if (file != nullptr) below->add_option("FILE", file_, file)->required();
        add_library(*below, library_);
        words_.emplace_back(below, does);
        return below;
    };
    word("backup", "a copy of all of it, also while an import is running", "the new file", &LibraryCommand::back_up);
    add_format_without_csv(
        *word("check", "whether all of it can be read and is as it was written", nullptr, &LibraryCommand::check),
        format_);
    word("restore", "make the library what a backup holds; what was there is kept as a backup too", "the backup",
         &LibraryCommand::restore);
    word("salvage", "what can still be read of a damaged library, as a new one", "the new file",
         &LibraryCommand::salvage);
    word("export", "write down all that was said, in a new file or over an earlier export",
         "the file; - writes to the terminal or a pipe", &LibraryCommand::export_said);
    word("import", "take in what was said on another computer; doing it twice does no harm", "an export",
         &LibraryCommand::import_said);
    CLI::App* said = word("said", "show what was said last", nullptr, &LibraryCommand::said);
    said->add_option("--limit", limit_, "at most so many" + default_words(limit_))
        ->type_name("N")
        ->check(CLI::PositiveNumber);
    add_format_without_csv(*said, format_);
    word("take-back", "undo the last thing that was said", nullptr, &LibraryCommand::take_back);
    CLI::App* erase = word("erase", "erase the name of a removed player wherever it was said, for ever", nullptr,
                           &LibraryCommand::erase);
    erase->add_option("NAME", name_, "the name, in any case")->required();
    erase->add_flag("--yes", is_sure_, "do it; without this it is only shown what would be lost");
    word("rebuild", "repair tags, players and terms from the journal", nullptr, &LibraryCommand::rebuild);
    word("compact", "give back room that is no longer used", nullptr, &LibraryCommand::compact);
}

int LibraryCommand::run() {
    for (const auto& [command, run] : words_)
        if (*command) return (this->*run)();
    const report::LibraryPage page = page_of(library_file(library_));
    write(format_, page);
    return kDone;
}

void LibraryCommand::require_file() const {
    if (file_.empty()) throw Misuse("FILE is the name of a file, not \"\"");
}

int LibraryCommand::back_up() {
    require_file();
    const std::filesystem::path library = library_file(library_);
    const std::uintmax_t bytes = library::back_up(library, file_);
    has_kept_ = true;
    write_answer(report::Document{
        {report::Paragraph{"Written and looked through: " + file_ + ", " + report::size_in_words(bytes) + "."}}});
    return kDone;
}

int LibraryCommand::check() {
    const std::filesystem::path file = library_file(library_);
    const library::Soundness soundness = library::look_through(
        file, [](const std::string& text) { answers::read_request(syllabus::read_stored(text).asked); });
    report::SoundnessPage page;
    page.file = file.string();
    page.settings = soundness.settings;
    page.sayings = soundness.sayings;
    for (const library::Flaw& flaw : soundness.flaws)
        page.flaws.push_back({std::string(word_of(flaw.part)), flaw.sentence});
    page.advice = advice(soundness, file);
    write(format_, page);
    return soundness.is_sound() ? kDone : kWorldFailed;
}

int LibraryCommand::restore() {
    require_file();
    const std::filesystem::path library = library_file(library_);
    const auto kept = library::restore(library, file_);
    has_kept_ = true;
    write_answer(report::Document{{report::Paragraph{
        "The library is what " + file_ + " holds" +
        (kept ? "; what was there before is kept as " + kept->string() + "." : "; there was none before.")}}});
    return kDone;
}

int LibraryCommand::salvage() {
    require_file();
    const library::Salvage salvage = library::salvage(library_file(library_), file_);
    has_kept_ = true;
    report::SalvagePage page;
    page.file = file_;
    for (const library::SalvagedTable& table : salvage.tables)
        page.parts.push_back({table.name, table.rows, table.refused, table.has_gaps});
    page.tunes_made_up = salvage.tunes_made_up;
    page.rows_let_go = salvage.rows_let_go;
    page.is_whole = salvage.is_whole();
    write_answer(report::describe(page));
    return salvage.is_whole() ? kDone : kDoneInPart;
}

int LibraryCommand::compact() {
    const library::Sizes sizes = library::compact(library_file(library_));
    has_kept_ = true;
    write_answer(report::Document{{report::Paragraph{"The library was " + report::size_in_words(sizes.before) +
                                                     " and is now " + report::size_in_words(sizes.after) + "."}}});
    return kDone;
}

std::unique_ptr<Command> library_command() { return std::make_unique<LibraryCommand>(); }

}  // namespace cli
