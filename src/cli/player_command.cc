// `gamut player`: who plays, with which notes, and what happened to their tunes.
#include <algorithm>

#include "answers/instrument_named.h"
#include "answers/notes_asked.h"
#include "answers/player_named.h"
#include "answers/term_names.h"
#include "answers/term_request.h"
#include "base/utf8.h"
#include "cli/day_option.h"
#include "cli/instrument_option.h"
#include "cli/new_player.h"
#include "cli/notes_option.h"
#include "cli/player_command.h"
#include "cli/player_remarks.h"
#include "cli/players_fetched.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/shell_word.h"
#include "cli/titles_said.h"
#include "cli/write.h"
#include "instruments/known.h"
#include "library/library.h"
#include "library/players.h"
#include "report/words/words.h"

namespace cli {

namespace {

// What can be said of a tune beside its states.
constexpr std::string_view kWords = "learning, known, rusty, forgotten, wished, unwished, unwanted or allowed";

// The reason of an exclusion: words for a line of a table.
std::string reason_of(const std::optional<std::string>& written) {
    return base::without_needless_blanks(base::printable(written.value_or("")));
}

std::string titles_of(const collection::Collection& library, const std::vector<tune::TuneId>& ids) {
    std::string titles;
    for (const tune::TuneRecord& record : library.tunes_by_id(ids))
        titles += (titles.empty() ? "" : "; ") + tune::title_of(record);
    return titles;
}

// `The term Thursdays stays as planned.`
std::string as_sentence(std::string terms) {
    const bool is_one = terms.starts_with("the term ");
    terms.front() = 'T';
    return terms + (is_one ? " stays" : " stay") + " as planned.";
}

// Writes what came of it, one paragraph.
void tell(const std::string& sentence) { write_answer(report::Document{{report::Paragraph{sentence}}}); }

}  // namespace

CLI::App* PlayerCommand::word(CLI::App& parent, const char* name, const char* help, int (PlayerCommand::*does)()) {
    CLI::App* command = parent.add_subcommand(name, help);
    add_library(*command, library_);
    words_.emplace_back(command, does);
    return command;
}

void PlayerCommand::add_to(CLI::App& command) {
    command.require_subcommand(0, 1);
    add_library(command, library_);
    add_format(command, format_);
    command.footer(
        "Example:  gamut player add Ina --instrument whistle-d --notes D:major\n"
        "          gamut player tune Ina known \"two turns, fog signal\"\n"
        "          gamut player class Mondays Ina Uli Olli\n"
        "What players say is never touched by an import. gamut player export writes it down.");
    const auto named = [&](CLI::App* word) {
        word->add_option("NAME", name_, "the player, in any case")->required();
        return word;
    };
    const auto titled = [&](CLI::App* word) {
        word->add_option("TITLES", titles_, "titles, loosely typed, or ids, parted by commas")->required();
        word->add_option("--on", on_, "the day, such as 2027-01-12 (default: today)")->type_name("DATE");
        return word;
    };
    const auto identified = [&](CLI::App* word) {
        word->add_option("--instrument", instrument_, "gamut instrument list shows names")->type_name("NAME");
        return word;
    };

    CLI::App* add = identified(named(word(command, "add", "a new player", &PlayerCommand::add)));
    add->add_option("--notes", notes_, "the notes they have; names mean those of the instrument")->type_name("NOTES");
    add->add_option("--knows", knows_, "titles they know: their notes count as had")->type_name("TITLES");
    add->add_option("--on", on_, "the day they are known from, such as 2027-01-12 (default: today)")->type_name("DATE");
    CLI::App* change = identified(named(word(command, "change", "another name or instrument", &PlayerCommand::change)));
    change->add_option("--name", new_name_, "the new name")->type_name("NAME");
    CLI::App* remove = named(word(command, "remove", "forget a player and all they said", &PlayerCommand::remove));
    remove->add_flag("--yes", is_sure_, "do it; without this it is only said what would be lost");

    add_format(*word(command, "list", "the players there are", &PlayerCommand::list), format_);
    add_format(*named(word(command, "show", "one player: notes and tunes", &PlayerCommand::show)), format_);
    CLI::App* notes = named(word(command, "notes", "show or say the notes a player has", &PlayerCommand::notes));
    CLI::Option* said = notes->add_option("NOTES", notes_, "from now on these, such as \"G:major&D:major A3..B5\"");
    CLI::Option* more = notes->add_option("--add", more_, "these too")->type_name("NOTES")->excludes(said);
    CLI::Option* less = notes->add_option("--drop", less_, "not these any more")->type_name("NOTES");
    less->excludes(said)->excludes(more);
    notes->add_flag("--from-tunes", from_tunes_, "only those of the tunes they know")
        ->excludes(said)
        ->excludes(more)
        ->excludes(less);

    CLI::App* tune = named(word(command, "tune", "say how a player stands to tunes", &PlayerCommand::tune));
    tune->add_option("STATE", what_, std::string(kWords))->required();
    titled(tune)->add_option("--because", because_, "with unwanted: why")->type_name("TEXT");
    CLI::App* played = titled(named(word(command, "played", "an evening in one line", &PlayerCommand::played)));
    played->add_option("--shaky", shaky_, "titles that did not hold")->type_name("TITLES");
    named(word(command, "take-back", "take back what was said last of a player's tunes", &PlayerCommand::take_back));
    CLI::App* players = word(command, "class", "players under one name, for --for", &PlayerCommand::class_of_players);
    players->add_option("NAME", name_, "what the class is called")->required();
    CLI::Option* whole = players->add_option("PLAYER", names_, "from now on these; without: show who is in it");
    CLI::Option* added = players->add_option("--add", added_, "this player too; may be given again")
                             ->type_name("PLAYER")
                             ->allow_extra_args(false);
    CLI::Option* dropped = players->add_option("--drop", dropped_, "this player no more; may be given again")
                               ->type_name("PLAYER")
                               ->allow_extra_args(false);
    CLI::Option* renamed = players->add_option("--name", new_name_, "the new name")->type_name("NAME");
    players->add_flag("--remove", removes_, "there is no such class any more; its players stay")
        ->excludes(whole)
        ->excludes(added)
        ->excludes(dropped)
        ->excludes(renamed);
    whole->excludes(added)->excludes(dropped);
    add_format(*named(word(command, "history", "what happened, the latest first", &PlayerCommand::history)), format_);
    word(command, "export", "write players down as JSON", &PlayerCommand::write)
        ->add_option("NAME", names_, "which (default: all)");
    word(command, "import", "read players written by export; what is there already stays", &PlayerCommand::read)
        ->add_option("FILE", file_read_, "the file")
        ->required();
}

int PlayerCommand::run() {
    for (const auto& [command, run] : words_)
        if (*command) return (this->*run)();
    return list();
}

int PlayerCommand::add() {
    tune::Player player;
    player.name = new_player_name(name_);
    if (instrument_) player.instrument = answers::instrument_named(*instrument_).id;
    const base::Date on = day_of("--on", on_);
    if (notes_) player.notes = notes(answers::Part::notes, *notes_, player);
    const std::filesystem::path file = library_file(library_);
    const auto refuse_second = [&](const tune::PlayerName& there) {
        throw Misuse("there is a player \"" + there.text + "\" already; gamut player change alters one");
    };
    TitlesSaid known;
    {
        const library::Library library = library::Library::open_existing(file);
        if (const auto there = library.player_named(player.name.text)) refuse_second(there->player.name);
        refuse_name_of_class(library, player.name);
        if (knows_) known = titles_said(library, *knows_);
    }
    if (knows_ && !known.names_any) throw Misuse("--knows: no title is named");
    library::Players players = library::Players::change(file, today());
    const auto id = players.add(player);
    if (!id) refuse_second(player.name);
    for (const tune::TuneId tune : known.tunes) players.record(*id, tune, {on, tune::PlayerEvent::known});
    players.commit();
    has_kept_ = true;
    keep_settled(file, known);
    name_ = player.name.text;
    show();
    if (!known.tunes.empty()) {
        const library::Library library = library::Library::open_existing(file);
        tell_still_to_come(on);
        tell_out_of_reach(answers::player_named(library, name_), library, known.tunes);
    }
    return known.are_all_sure ? kDone : kDoneInPart;
}

int PlayerCommand::change() {
    if (!new_name_ && !instrument_) throw Misuse("gamut player change needs --name or --instrument: change what?");
    const std::filesystem::path file = library_file(library_);
    const tune::Player player = answers::player_named(library::Library::open_existing(file), name_).player;
    const auto instrument = instrument_ ? std::optional(answers::instrument_named(*instrument_).id) : std::nullopt;
    const auto name = new_name_ ? std::optional(new_player_name(*new_name_)) : std::nullopt;
    if (name && name->folded != player.name.folded) refuse_name_of_class(library::Library::open_existing(file), *name);
    library::Players players = library::Players::change(file, today());
    std::vector<std::string> terms;
    if (name) {
        if (const auto other = players.named(*name); other && other->id != player.id)
            throw Misuse("there is a player \"" + other->name.text + "\" already");
        library::Players::InTerm in_term;
        if (name->folded != player.name.folded)
            in_term = [&](const std::string& text) { return answers::renamed_in_term(text, player.name, name->text); };
        terms = players.rename(player.id, *name, in_term);
    }
    if (instrument) players.set_instrument(player.id, *instrument);
    players.commit();
    has_kept_ = true;
    if (!terms.empty())
        write_notice("gamut: " + base::printable(terms_in_words(terms)) + (terms.size() == 1 ? " goes" : " go") +
                     " on with the name " + name->text + "\n");
    if (name) name_ = name->text;
    return show();
}

int PlayerCommand::remove() {
    const std::filesystem::path file = library_file(library_);
    const collection::PlayerRecord record = answers::player_named(library::Library::open_existing(file), name_);
    const std::string& name = record.player.name.text;
    const std::string tunes = report::counted(static_cast<std::int64_t>(record.tunes.size()), "tune", "tunes");
    if (!is_sure_) {
        write_notice("gamut: with " + name + " all they said of " + tunes + " is lost for ever; gamut player export " +
                     shell_word(name) + " writes it down, and --yes does it; nothing was removed\n");
        return kDoneInPart;
    }
    const std::string terms = terms_of(file, record.player.name);
    library::Players players = library::Players::change(file, today());
    const std::vector<tune::PlayerName> names =
        players.remove(record.player.id, [](std::string text, const std::vector<tune::PlayerName>& all) {
            for (const tune::PlayerName& once : all)
                text = answers::renamed_in_term(text, once, std::string(answers::kRemovedPlayer));
            return text;
        });
    players.commit();
    has_kept_ = true;
    tell(name + " is removed, with what was said of " + tunes + "." + copies_told(file) +
         (terms.empty() ? "" : " " + as_sentence(terms)) + told_where_said(file, names));
    return kDone;
}

int PlayerCommand::list() {
    const library::Library library = library::Library::open_existing(library_file(library_));
    report::PlayersPage page;
    for (const collection::PlayerRecord& record : library.players()) page.players.push_back(page_of(library, record));
    page.classes = library.player_classes();
    cli::write(format_, page);
    return kDone;
}

int PlayerCommand::show() {
    const library::Library library = library::Library::open_existing(library_file(library_));
    const report::PlayerPage page = page_of(library, answers::player_named(library, name_));
    cli::write(format_, page);
    return kDone;
}

// On the player's own instrument.
music::NoteSet PlayerCommand::notes(answers::Part part, const std::string& text, const tune::Player& player) const {
    std::vector<answers::LeftOutNotes> left_out;
    const music::NoteSet notes =
        answers::notes_asked(part, text, answers::instrument_of(player), names_in(library_), left_out);
    tell_left_out(left_out);
    return notes;
}

int PlayerCommand::notes() {
    const std::filesystem::path file = library_file(library_);
    const tune::Player player = answers::player_named(library::Library::open_existing(file), name_).player;
    if (notes_ || more_ || less_ || from_tunes_) {
        const auto all = notes_ ? std::optional(notes(answers::Part::typed, *notes_, player)) : std::nullopt;
        const auto more = more_ ? std::optional(notes(answers::Part::more, *more_, player)) : std::nullopt;
        const auto less = less_ ? std::optional(notes(answers::Part::less, *less_, player)) : std::nullopt;
        library::Players players = library::Players::change(file, today());
        if (all || from_tunes_) players.set_notes(player.id, all);
        if (more) players.add_notes(player.id, *more);
        if (less) players.drop_notes(player.id, *less);
        players.commit();
        has_kept_ = true;
        if (less) {
            const library::Library library = library::Library::open_existing(file);
            tell_not_dropped(answers::player_named(library, name_), library, *less);
        }
    }
    const library::Library library = library::Library::open_existing(file);
    write_answer(report::describe_notes_of(page_of(library, answers::player_named(library, name_))));
    return kDone;
}

int PlayerCommand::tune() {
    const auto event = tune::parse_event(what_);
    const bool is_state = event && tune::says_state(*event);
    if (!is_state && what_ != "wished" && what_ != "unwished" && what_ != "unwanted" && what_ != "allowed")
        throw Misuse("\"" + what_ + "\" is nothing to say of a tune; use " + std::string(kWords));
    if (because_ && what_ != "unwanted") throw Misuse("--because goes with unwanted");
    const std::filesystem::path file = library_file(library_);
    const base::Date on = day_of("--on", on_);
    std::optional<collection::PlayerRecord> record;
    TitlesSaid said;
    {
        const library::Library library = library::Library::open_existing(file);
        record = answers::player_named(library, name_);
        said = titles_said(library, titles_);
    }
    if (!said.names_any) throw Misuse("no title is named");
    library::Players players = library::Players::change(file, today());
    const tune::PlayerId player = record->player.id;
    std::vector<tune::TuneId> done, not_unwanted, not_wished;
    std::vector<std::pair<tune::TuneId, tune::DatedEvent>> later;
    for (const tune::TuneId id : said.tunes) {
        if (is_state) players.record(player, id, {on, *event});
        if (what_ == "wished" || what_ == "unwished") players.wish(player, id, what_ == "wished");
        if (what_ == "unwanted") players.exclude(player, id, reason_of(because_));
        if (what_ == "allowed") players.exclude(player, id, std::nullopt);
        if (what_ == "known") players.wish(player, id, false);  // it has come true
        if (what_ == "wished" && players.exclude(player, id, std::nullopt)) not_unwanted.push_back(id);
        if (what_ == "unwanted" && players.wish(player, id, false)) not_wished.push_back(id);
        const auto stands = is_state ? later_state(players.said_of(player, id), on) : std::nullopt;
        if (stands)
            later.emplace_back(id, *stands);
        else
            done.push_back(id);
    }
    players.commit();
    has_kept_ = true;
    keep_settled(file, said);
    const library::Library library = library::Library::open_existing(file);
    std::string sentence;
    if (!done.empty()) sentence = record->player.name.text + ", " + what_ + ": " + titles_of(library, done) + ".";
    if (!not_unwanted.empty()) sentence += " No longer unwanted: " + titles_of(library, not_unwanted) + ".";
    if (!not_wished.empty()) sentence += " No longer wished: " + titles_of(library, not_wished) + ".";
    for (const auto& [id, stands] : later)
        sentence += (sentence.empty() ? "" : " ") + titles_of(library, {id}) + ": " +
                    std::string(tune::event_token(stands.event)) + " since " + base::to_string(stands.day) +
                    ", which is later, stands; " + what_ + " " + base::to_string(on) + " is kept in the history.";
    if (!sentence.empty()) tell(sentence);
    if (is_state && !said.tunes.empty()) tell_still_to_come(on);
    if (what_ == "known") tell_out_of_reach(*record, library, said.tunes);
    return said.are_all_sure && !said.tunes.empty() ? kDone : kDoneInPart;
}

int PlayerCommand::played() {
    const std::filesystem::path file = library_file(library_);
    const base::Date on = day_of("--on", on_);
    std::optional<collection::PlayerRecord> record;
    TitlesSaid well, badly;
    {
        const library::Library library = library::Library::open_existing(file);
        record = answers::player_named(library, name_);
        well = titles_said(library, titles_);
        if (shaky_) badly = titles_said(library, *shaky_);
    }
    if (!well.names_any && !badly.names_any) throw Misuse("no title is named");
    const tune::PlayerId player = record->player.id;
    std::erase_if(well.tunes, [&](tune::TuneId id) {
        return std::find(badly.tunes.begin(), badly.tunes.end(), id) != badly.tunes.end();
    });
    std::vector<tune::TuneId> new_known, new_learning;
    library::Players players = library::Players::change(file, today());
    const auto say = [&](const std::vector<tune::TuneId>& tunes, tune::PlayerEvent event, tune::PlayerEvent state,
                         std::vector<tune::TuneId>& entered) {
        for (const tune::TuneId id : tunes) {
            if (tune::can_enter(players.said_of(player, id), on) && players.record(player, id, {on, state}))
                entered.push_back(id);
            players.record(player, id, {on, event});
        }
    };
    say(well.tunes, tune::PlayerEvent::played, tune::PlayerEvent::known, new_known);
    say(badly.tunes, tune::PlayerEvent::shaky, tune::PlayerEvent::learning, new_learning);
    players.commit();
    has_kept_ = true;
    keep_settled(file, well);
    keep_settled(file, badly);
    const library::Library library = library::Library::open_existing(file);
    std::string sentence = record->player.name.text + " played " + base::in_words(on) + ":";
    if (!well.tunes.empty()) sentence += " " + titles_of(library, well.tunes) + ".";
    if (!badly.tunes.empty())
        sentence += (well.tunes.empty() ? " shaky: " : " Shaky: ") + titles_of(library, badly.tunes) + ".";
    if (!new_known.empty()) sentence += " New among the known: " + titles_of(library, new_known) + ".";
    if (!new_learning.empty()) sentence += " New, and learning: " + titles_of(library, new_learning) + ".";
    sentence += still_learnt(answers::player_named(library, name_), library, well.tunes);
    if (!well.tunes.empty() || !badly.tunes.empty()) {
        tell(sentence);
        tell_still_to_come(on);
        tell_out_of_reach(*record, library, new_known);
    }
    return well.are_all_sure && badly.are_all_sure ? kDone : kDoneInPart;
}

int PlayerCommand::take_back() {
    const std::filesystem::path file = library_file(library_);
    const tune::Player player = answers::player_named(library::Library::open_existing(file), name_).player;
    library::Players players = library::Players::change(file, today());
    const std::vector<library::TakenBack> taken = players.take_back(player.id);
    players.commit();
    has_kept_ = true;
    if (taken.empty()) {
        write_notice("gamut: nothing was said of a tune of " + player.name.text + "\n");
        return kDoneInPart;
    }
    const library::Library library = library::Library::open_existing(file);
    std::string sentence = "Taken back:";
    for (const library::TakenBack& one : taken)
        sentence += std::string(&one == &taken.front() ? " " : "; ") + one.said + " " + titles_of(library, {one.tune}) +
                    (one.day ? ", " + base::to_string(*one.day) : "");
    tell(sentence + ".");
    return kDone;
}

int PlayerCommand::history() {
    const library::Library library = library::Library::open_existing(library_file(library_));
    const report::PlayerHistory page = history_of(library, answers::player_named(library, name_).player);
    cli::write(format_, page);
    return kDone;
}

int PlayerCommand::write() {
    const library::Library library = library::Library::open_existing(library_file(library_));
    std::vector<repertoire::FiledPlayer> players;
    if (names_.empty())
        for (const collection::PlayerRecord& record : library.players()) players.push_back(filed(library, record));
    for (const std::string& name : names_) players.push_back(filed(library, answers::player_named(library, name)));
    write_answer(repertoire::write_players(players));
    return kDone;
}

std::unique_ptr<Command> player_command() { return std::make_unique<PlayerCommand>(); }

}  // namespace cli
