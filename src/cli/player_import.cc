// `gamut player import`: players written down by export come back, and nothing that is here is lost.
#include <algorithm>

#include "answers/player_named.h"
#include "base/utf8.h"
#include "cli/new_player.h"
#include "cli/player_command.h"
#include "cli/players_fetched.h"
#include "cli/shell_word.h"
#include "cli/text_file.h"
#include "library/library.h"
#include "library/players.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace cli {

namespace {

// What the file says of a tune, as one of this library.
struct Said {
    tune::TuneId tune;
    const tune::PlayerTune* filed;
};

struct Meant {
    std::vector<Said> tunes;
    std::vector<std::string> unknown;   // titles
    std::vector<std::string> retitled;  // found by place: the title in the file
};

std::string shown(const std::string& title) { return base::printable(tune::title_or_none(title)); }

Meant meant_by(TunesHere& tunes, const repertoire::FiledPlayer& filed) {
    Meant meant;
    for (const repertoire::FiledTune& tune : filed.tunes) {
        const auto here = tunes.meant_by(tune);
        if (!here) {
            meant.unknown.push_back(shown(tune.title));
            continue;
        }
        meant.tunes.push_back({here->id, &tune.said});
        if (here->is_retitled) meant.retitled.push_back(shown(tune.title));
    }
    return meant;
}

// Whether anything was.
bool add_what_is_new(library::Players& players, tune::PlayerId player, const Meant& meant) {
    bool is_any = false;
    for (const Said& said : meant.tunes) {
        const tune::PlayerTune here = players.said_of(player, said.tune);
        for (const repertoire::EventToAdd& add : repertoire::events_to_add(here, said.filed->events)) {
            if (add.is_before) players.record_before(player, said.tune, add.event);
            if (add.is_before || players.record(player, said.tune, add.event)) is_any = true;
        }
        if (said.filed->wished && players.wish(player, said.tune, true)) is_any = true;
        if (said.filed->excluded && !here.excluded && players.exclude(player, said.tune, said.filed->excluded))
            is_any = true;
    }
    return is_any;
}

// Instrument and notes are taken where none were said here; what stays although the file says otherwise is told.
// Whether any was taken.
bool add_identity(library::Players& players, const tune::Player& here, const tune::Player& filed) {
    if (filed.instrument && !here.instrument)
        players.set_instrument(here.id, *filed.instrument);
    else if (filed.instrument && here.instrument != filed.instrument)
        write_notice("gamut: " + here.name.text + " keeps the instrument said here, not the file's " +
                     base::printable(*filed.instrument) + "\n");
    if (filed.notes && !here.notes)
        players.set_notes(here.id, filed.notes);
    else if (filed.notes && here.notes != filed.notes)
        write_notice("gamut: " + here.name.text + " keeps the notes said here, not the file's\n");
    return (filed.instrument && !here.instrument) || (filed.notes && !here.notes);
}

void tell_strange_instrument(const tune::Player& player) {
    if (player.instrument && answers::known_instrument_of(player) == nullptr)
        write_notice("gamut: the instrument of " + player.name.text + ", \"" + base::printable(*player.instrument) +
                     "\", is none that gamut knows; gamut player change " + shell_word(player.name.text) +
                     " --instrument says another\n");
}

}  // namespace

int PlayerCommand::read() {
    std::vector<repertoire::FiledPlayer> filed;
    try {
        filed = repertoire::read_players(text_of_file(file_read_));
    } catch (const repertoire::PlayersFileFault& fault) {
        throw Misuse(file_read_ + ": " + fault.what());
    }
    const std::filesystem::path file = library_file(library_);
    for (const repertoire::FiledPlayer& player : filed) refuse_name_of_instrument(player.player.name);
    std::vector<Meant> meant;
    {
        const library::Library library = library::Library::open_existing(file);
        for (const repertoire::FiledPlayer& player : filed)
            if (!library.player_named(player.player.name.text)) refuse_name_of_class(library, player.player.name);
        TunesHere tunes(library);
        for (const repertoire::FiledPlayer& player : filed) meant.push_back(meant_by(tunes, player));
    }
    library::Players players = library::Players::change(file, today());
    bool is_whole = true;
    std::string sentence;
    for (std::size_t at = 0; at < filed.size(); ++at) {
        const tune::Player& player = filed[at].player;
        const auto here = players.named(player.name);
        bool is_any_new = !here || add_identity(players, *here, player);
        const tune::PlayerId id = here ? here->id : players.add(player).value();
        if (!here || !here->instrument) tell_strange_instrument(player);
        is_any_new = add_what_is_new(players, id, meant[at]) || is_any_new;
        sentence += (sentence.empty() ? "" : " ") + player.name.text + ": " +
                    (is_any_new ? report::counted(static_cast<std::int64_t>(meant[at].tunes.size()), "tune", "tunes")
                                : "nothing new") +
                    ".";
        for (const std::string& title : meant[at].retitled)
            write_notice("gamut: " + player.name.text + ": \"" + title +
                         "\" has another title here; taken for the tune at its place in its file\n");
        for (const std::string& title : meant[at].unknown)
            write_notice("gamut: " + player.name.text + ": no one tune here is \"" + title + "\"; left out\n");
        is_whole = is_whole && meant[at].unknown.empty();
    }
    players.commit();
    has_kept_ = true;
    if (!sentence.empty()) write_answer(report::Document{{report::Paragraph{sentence}}});
    return is_whole ? kDone : kDoneInPart;
}

}  // namespace cli
