// `gamut handout`: sheets to print, for who reads no music.
#include <fmt/format.h>

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/evening.h"
#include "answers/lesson_handout.h"
#include "answers/path.h"
#include "answers/tune_handout.h"
#include "answers/week_handout.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/day_option.h"
#include "cli/engraver.h"
#include "cli/instrument_option.h"
#include "cli/kept_term.h"
#include "cli/new_file.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "library/library.h"
#include "library/syllabi.h"
#include "paper/evening_pages.h"
#include "paper/lesson_pages.h"
#include "paper/tune_pages.h"
#include "syllabus/name.h"
#include "tune/record.h"

namespace cli {

namespace {

constexpr const char* kWhat = "What is on it";
constexpr const char* kWhose = "For whom";
constexpr const char* kLook = "How it looks";

// Sheets that go into one file.
struct Pack {
    std::string title;
    std::string whose;  // a player, for the name of a file
    std::vector<paper::Sheet> sheets;
};

class HandoutCommand : public Command {
public:
    void add_to(CLI::App& command) override;
    int run() override;

private:
    void check() const;
    paper::Looks looks() const;
    std::vector<answers::HandoutReader> readers() const;
    Pack of_tune(const library::Library& library, const answers::HandoutReader& reader) const;
    Pack of_step(const library::Library& library, const answers::HandoutReader& reader) const;
    Pack of_term(const library::Library& library, const syllabus::Syllabus& plan,
                 const answers::HandoutReader& reader) const;
    Pack of_week(const library::Library& library) const;
    Pack of_evening(const library::Library& library) const;
    void write(const std::vector<Pack>& packs) const;

    std::optional<std::string> tune_, term_, lesson_, have_, fresh_, output_, today_;
    std::vector<std::string> for_, week_;
    std::optional<std::string> title_;
    std::optional<int> step_, evening_;
    bool is_learned_ = false;
    std::string names_ = "letters";
    std::optional<std::string> without_;
    bool is_large_ = false, with_staff_ = false;
    InstrumentOption instrument_;
    std::string library_;
};

void HandoutCommand::add_to(CLI::App& command) {
    command.add_option("--tune", tune_, "a tune, every bar in order: an id, a title, or a part of one")
        ->type_name("TUNE")
        ->group(kWhat);
    command
        .add_option("--step", step_, "a step of the path from the notes that are there: the note, and tunes it opens")
        ->type_name("N")
        ->group(kWhat);
    command.add_option("--term", term_, "a kept term: all of it on a page, then every lesson with its tunes")
        ->type_name("NAME")
        ->group(kWhat);
    command.add_option("--lesson", lesson_, "of the term only this lesson, or these: 3, or 3-4")
        ->type_name("LESSON")
        ->group(kWhat);
    command.add_option("--week", week_, "a card for this player: a tune, a note, what comes back; may be given again")
        ->type_name("PLAYER")
        ->group(kWhat)
        ->allow_extra_args(false);
    command.add_flag("--learned", is_learned_, "of the term what was taught, with days, and a line to sign on")
        ->group(kWhat);
    command
        .add_option("--evening", evening_,
                    "a programme for so many minutes, and cards of its sets to cut out, eight to a page")
        ->type_name("N")
        ->group(kWhat);
    command.add_option("--title", title_, "what stands above the programme")->type_name("TEXT")->group(kLook);
    command
        .add_option("--for", for_,
                    "this player: their instrument, and which notes are new to them; may be given again: a sheet each")
        ->type_name("PLAYER")
        ->group(kWhose)
        ->allow_extra_args(false);
    instrument_.add_to(command, "for this instrument (gamut instrument list shows names)", kWhose);
    command.add_option("--have", have_, "the notes that are there; the tune's others are new")
        ->type_name("NOTES")
        ->group(kWhose);
    command.add_option("--new", fresh_, "the notes that are new, in place of all that are not there")
        ->type_name("NOTES")
        ->group(kWhose);
    command
        .add_option("--names", names_, "letters (default), fixed-do, or none: blocks and a dot for the octave alone")
        ->type_name("letters|fixed-do|none")
        ->group(kLook);
    command.add_flag("--large", is_large_, "in large print")->group(kLook);
    CLI::Option* staff =
        command.add_flag("--staff", with_staff_, "with staff notation, though it takes a page more")->group(kLook);
    command.add_option("--without", without_, "no staff notation, though there is room for it")
        ->type_name("staff")
        ->group(kLook)
        ->excludes(staff);
    command
        .add_option("--output", output_,
                    "write this new file, or into this folder a file a player, instead of to the terminal")
        ->type_name("FILE|FOLDER")
        ->group(kLook);
    command.add_option("--today", today_, "the first day of the week on a card (default: by the clock)")
        ->type_name("DATE")
        ->group(kLook);
    add_library(command, library_);
    command.footer(
        "Example:  gamut handout --tune kettle --instrument whistle-d --output kettle.html\nA page of HTML that prints "
        "on A4 and Letter: open it in a browser and print it, without headers and footers of its own.");
}

void HandoutCommand::check() const {
    const int asked =
        (tune_ ? 1 : 0) + (step_ ? 1 : 0) + (term_ ? 1 : 0) + (week_.empty() ? 0 : 1) + (evening_ ? 1 : 0);
    if (asked == 0)
        throw Misuse("what shall be on it? --tune TUNE, --step N, --term NAME, --week PLAYER or --evening N");
    if (asked > 1) throw Misuse("--tune, --step, --term, --week and --evening: one of them");
    if (is_learned_ && (!term_ || lesson_)) throw Misuse("--learned is of a whole term; say which with --term NAME");
    if (title_ && !evening_) throw Misuse("--title goes with --evening");
    if (evening_ && (have_ || fresh_)) throw Misuse("an evening is of tunes that fit; leave out --have and --new");
    if (evening_ && (*evening_ < 1 || *evening_ > repertoire::kMostMinutes))
        throw Misuse(fmt::format("--evening takes a number from 1 to {}", repertoire::kMostMinutes));
    if (lesson_ && !term_) throw Misuse("--lesson is of a term; say which with --term NAME");
    if (output_ && output_->empty()) throw Misuse("--output takes the name of a file or of a folder, not \"\"");
    if (!week_.empty() && (!for_.empty() || instrument_.is_given() || have_ || fresh_))
        throw Misuse("--week is a player's own; leave out --for, --instrument, --have and --new");
    if (term_ && (have_ || fresh_))
        throw Misuse("a term says which notes are there and new; leave out --have and --new");
    if (step_ && fresh_) throw Misuse("a step says which note is new; leave out --new");
    if (without_ && *without_ != "staff") throw Misuse("--without takes staff, not \"" + *without_ + "\"");
    if (with_staff_ && is_large_) throw Misuse("--large is for who does not read staves; leave out --staff");
    if (step_ && *step_ < 1) throw Misuse("--step takes a whole number from 1");
}

paper::Looks HandoutCommand::looks() const {
    const auto names = paper::parse_names(names_);
    if (!names) throw Misuse("--names takes letters, fixed-do or none, not \"" + names_ + "\"");
    paper::Looks looks{*names, is_large_};
    if (!without_ && !is_large_ && has_engraver()) looks.engrave = engrave;
    looks.staff_costs_page = with_staff_;
    return looks;
}

std::vector<answers::HandoutReader> HandoutCommand::readers() const {
    std::vector<answers::HandoutReader> readers;
    for (const std::string& player : for_) readers.push_back({instrument_.shared(), player, have_, fresh_});
    if (readers.empty()) readers.push_back({instrument_.shared(), std::nullopt, have_, fresh_});
    return readers;
}

Pack HandoutCommand::of_tune(const library::Library& library, const answers::HandoutReader& reader) const {
    const answers::TuneHandout handout = answers::tune_handout(library, *tune_, reader);
    tell_left_out(handout.left_out_notes);
    return {tune::title_of(handout.record), handout.player, {paper::tune_pages(handout, looks())}};
}

Pack HandoutCommand::of_step(const library::Library& library, const answers::HandoutReader& reader) const {
    answers::PathQuestion question;
    question.have = have_;
    if (question.filter.scraps != answers::Scraps::asked_for) question.filter.scraps = answers::Scraps::left_aside;
    question.filter.instrument = reader.instrument;
    if (reader.player) question.filter.players = {*reader.player};
    question.is_brief = true;
    const answers::PathAnswer path = answers::answer(library, question);
    tell_left_out(path.left_out);
    const auto step = static_cast<std::size_t>(*step_);
    if (step > path.plan.steps.size())
        throw Misuse(fmt::format("--step {}: the path has {} steps", *step_, path.plan.steps.size()));
    const answers::LessonHandout handout = answers::step_handout(library, question, path, step - 1, reader);
    return {fmt::format("Step {}", *step_), handout.player, paper::lesson_sheets(handout, looks())};
}

Pack HandoutCommand::of_term(const library::Library& library, const syllabus::Syllabus& plan,
                             const answers::HandoutReader& reader) const {
    Pack pack{plan.name, "", {}};
    if (is_learned_) {
        pack.sheets.push_back(paper::learned(plan, looks()));
        return pack;
    }
    std::pair<std::size_t, std::size_t> lessons{0, plan.lessons.size() - 1};
    if (lesson_)
        lessons = lessons_named("--lesson", *lesson_, plan.lessons);
    else
        pack.sheets.push_back(paper::term_sheet(plan, answers::ladder_of(library, plan), looks()));
    for (std::size_t lesson = lessons.first; lesson <= lessons.second; ++lesson) {
        const answers::LessonHandout handout = answers::lesson_handout(library, plan, lesson, reader);
        pack.whose = handout.player;
        for (const std::string& gone : handout.gone)
            write_notice("gamut: lesson " + std::to_string(lesson + 1) + ": " + base::printable(gone) +
                         " is no longer there; its sheet is left out\n");
        for (paper::Sheet& sheet : paper::lesson_sheets(handout, looks())) pack.sheets.push_back(std::move(sheet));
    }
    return pack;
}

Pack HandoutCommand::of_week(const library::Library& library) const {
    std::vector<answers::WeekHandout> weeks;
    for (const std::string& player : week_)
        weeks.push_back(answers::week_handout(library, player, day_of("--today", today_)));
    return {"This week", weeks.size() == 1 ? weeks.front().player : "", {paper::week_sheet(weeks, looks())}};
}

Pack HandoutCommand::of_evening(const library::Library& library) const {
    answers::EveningQuestion question;
    question.filter.players = for_;
    question.filter.instrument = instrument_.shared();
    question.filter.scraps = answers::Scraps::left_aside;
    question.goal.minutes = *evening_;
    const answers::EveningAnswer evening = answers::answer(library, question);
    if (evening.evening.sets.empty()) throw Misuse("no set could be made of these tunes");
    paper::Occasion occasion{title_.value_or(""), day_of("--today", today_), ""};
    for (const std::string& player : for_) occasion.players += (occasion.players.empty() ? "" : ", ") + player;
    return {occasion.title.empty() ? "An evening" : occasion.title,
            "",
            {paper::programme(evening, occasion), paper::set_cards(evening, occasion, looks())}};
}

std::string document_of(const Pack& pack) {
    std::string body;
    for (const paper::Sheet& sheet : pack.sheets) body += paper::html_of(sheet.pages, sheet.foot);
    return paper::document_of(pack.title, body);
}

// A name for a file: letters and digits of any script stay, all else is a hyphen.
std::string file_name_of(const Pack& pack) {
    std::string name;
    for (const char byte : pack.whose.empty() ? pack.title : pack.whose) {
        const auto value = static_cast<unsigned char>(byte);
        const bool stays = value >= 0x80 || (value >= '0' && value <= '9') || (value >= 'A' && value <= 'Z') ||
                           (value >= 'a' && value <= 'z');
        if (stays)
            name += byte;
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (name.ends_with('-')) name.pop_back();
    return (name.empty() ? "handout" : name) + ".html";
}

void HandoutCommand::write(const std::vector<Pack>& packs) const {
    const bool names_people = !for_.empty() || !week_.empty() || term_;
    const auto whom = names_people ? NewFile::For::owner : NewFile::For::anybody;
    if (output_ && std::filesystem::is_directory(*output_)) {
        for (const Pack& pack : packs) {
            const std::string file = (std::filesystem::path(*output_) / file_name_of(pack)).string();
            NewFile(file, whom).write(document_of(pack));
            write_notice("gamut: " + base::printable(file) + " written\n");
        }
        return;
    }
    Pack all{packs.front().title, "", {}};
    for (const Pack& pack : packs) all.sheets.insert(all.sheets.end(), pack.sheets.begin(), pack.sheets.end());
    if (output_)
        NewFile(*output_, whom).write(document_of(all));
    else
        write_answer(document_of(all));
}

int HandoutCommand::run() {
    check();
    looks();  // a word that is none is told first
    if (with_staff_ && !has_engraver())
        write_notice("gamut: no staves: the program abcm2ps is not installed (on Debian: apt install abcm2ps)\n");
    const std::filesystem::path file = library_file(library_);
    const library::Library library = library::Library::open_existing(file);
    std::vector<Pack> packs;
    if (!week_.empty()) {
        packs.push_back(of_week(library));
    } else if (evening_) {
        packs.push_back(of_evening(library));
    } else if (term_) {
        const auto kept = [&] {
            try {
                return library::kept_syllabus(file, syllabus::read_name(*term_).folded);
            } catch (const syllabus::NameFault& fault) {
                throw Misuse(fault.what());
            }
        }();
        if (!kept) {
            write_notice("gamut: no term is called \"" + base::printable(*term_) +
                         "\"; gamut syllabus lists those that are kept\n");
            return kDoneInPart;
        }
        const syllabus::Syllabus plan = read_kept(file, *kept);
        for (const answers::HandoutReader& reader : readers()) packs.push_back(of_term(library, plan, reader));
    } else {
        for (const answers::HandoutReader& reader : readers())
            packs.push_back(tune_ ? of_tune(library, reader) : of_step(library, reader));
    }
    write(packs);
    return kDone;
}

}  // namespace

std::unique_ptr<Command> handout_command() { return std::make_unique<HandoutCommand>(); }

}  // namespace cli
