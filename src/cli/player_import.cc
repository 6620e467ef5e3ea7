// `gamut player import`: players written down by export come back, and nothing that is here is lost.
#include <algorithm>
#include <fstream>
#include <iterator>

#include "base/failure.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/players_fetched.h"
#include "library/library.h"
#include "library/players.h"
#include "report/words.h"

namespace cli {

namespace {

std::string text_of_file(const std::string& file) {
    std::error_code unknown;
    if (std::filesystem::is_directory(file, unknown)) throw base::Failure("read", file, "it is a folder");
    std::ifstream stream(file, std::ios::binary);
    if (!stream) throw base::Failure("read", file, "there is no such file, or it may not be read");
    return {std::istreambuf_iterator<char>(stream), {}};
}

// What a player says of a tune here, if anything.
const tune::PlayerTune* said_here(const library::PlayerRecord* here, tune::TuneId id) {
    if (here == nullptr) return nullptr;
    const auto said = std::find_if(here->tunes.begin(), here->tunes.end(),
                                   [&](const tune::PlayerTune& tune) { return tune.tune == id; });
    return said == here->tunes.end() ? nullptr : &*said;
}

// What the file says of a tune, as one of this library.
struct Said {
    tune::TuneId tune;
    const tune::PlayerTune* filed;
};

struct Meant {
    std::vector<Said> tunes;
    std::vector<std::string> unknown;  // titles
};

Meant meant_by(const library::Library& library, const repertoire::FiledPlayer& filed) {
    Meant meant;
    for (const repertoire::FiledTune& tune : filed.tunes) {
        if (const auto id = tune_meant(library, tune))
            meant.tunes.push_back({*id, &tune.said});
        else
            meant.unknown.push_back(tune.title.empty() ? "(no title)" : tune.title);
    }
    return meant;
}

void add_what_is_new(library::Players& players, tune::PlayerId player, const library::PlayerRecord* here,
                     const Meant& meant) {
    for (const Said& said : meant.tunes) {
        const tune::PlayerTune* known = said_here(here, said.tune);
        for (const tune::DatedEvent& event : said.filed->events)
            if (known == nullptr || std::find(known->events.begin(), known->events.end(), event) == known->events.end())
                players.record(player, said.tune, event);
        if (said.filed->wished) players.wish(player, said.tune, true);
        if (said.filed->excluded && (known == nullptr || !known->excluded))
            players.exclude(player, said.tune, said.filed->excluded);
    }
}

// What stays as it is here although the file says otherwise.
void tell_differences(const tune::Player& here, const tune::Player& filed) {
    if (filed.instrument && here.instrument != filed.instrument)
        write_notice("gamut: " + here.name.text + " keeps the instrument said here, not the file's " +
                     base::printable(*filed.instrument) + "\n");
    if (filed.notes && here.notes != filed.notes)
        write_notice("gamut: " + here.name.text + " keeps the notes said here, not the file's\n");
}

}  // namespace

int PlayerCommand::read() {
    std::vector<repertoire::FiledPlayer> filed;
    try {
        filed = repertoire::read_players(text_of_file(name_));
    } catch (const repertoire::PlayersFileFault& fault) {
        throw Misuse(name_ + ": " + fault.what());
    }
    const std::filesystem::path file = library_file(library_);
    std::vector<std::optional<library::PlayerRecord>> here;
    std::vector<Meant> meant;
    {
        const library::Library library = library::Library::open_existing(file);
        for (const repertoire::FiledPlayer& player : filed) {
            here.push_back(library.player_named(player.player.name.text));
            meant.push_back(meant_by(library, player));
        }
    }
    library::Players players = library::Players::change(file);
    bool is_whole = true;
    std::string sentence;
    for (std::size_t at = 0; at < filed.size(); ++at) {
        const tune::Player& player = filed[at].player;
        const library::PlayerRecord* known = here[at] ? &*here[at] : nullptr;
        const tune::PlayerId id = known ? known->player.id : players.add(player).value();
        add_what_is_new(players, id, known, meant[at]);
        if (known != nullptr) tell_differences(known->player, player);
        sentence += (sentence.empty() ? "" : " ") + player.name.text + ": " +
                    report::counted(static_cast<std::int64_t>(meant[at].tunes.size()), "tune", "tunes") + ".";
        for (const std::string& title : meant[at].unknown)
            write_notice("gamut: " + player.name.text + ": no one tune here is \"" + base::printable(title) +
                         "\"; left out\n");
        is_whole = is_whole && meant[at].unknown.empty();
    }
    players.commit();
    if (!sentence.empty()) write_answer(report::Document{{report::Paragraph{sentence}}});
    return is_whole ? kDone : kDoneInPart;
}

}  // namespace cli
