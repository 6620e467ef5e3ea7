#include <algorithm>
#include <set>
#include <vector>

#include "base/invariant.h"
#include "base/utf8.h"
#include "repertoire/players_file.h"
#include "repertoire/players_here.h"
#include "targets.h"

namespace fuzz {

namespace {

void check_tune(const tune::PlayerTune& said) {
    for (std::size_t at = 0; at < said.events.size(); ++at) {
        INVARIANT(tune::is_sayable(said.events[at].day));
        INVARIANT(at == 0 || said.events[at - 1].day <= said.events[at].day);
    }
    // A tune in a state came into it on a day, and not before it was taken up.
    INVARIANT(tune::since(said).has_value() == tune::state_of(said).has_value());
    if (const auto taken_up = tune::taken_up(said)) INVARIANT(*taken_up <= *tune::since(said));
}

void add(tune::PlayerTune& here, const repertoire::EventToAdd& added) {
    const auto is_later = [&](const tune::DatedEvent& event) {
        return added.is_before ? event.day >= added.event.day : event.day > added.event.day;
    };
    here.events.insert(std::find_if(here.events.begin(), here.events.end(), is_later), added.event);
}

// What a file brings is brought once: the second time nothing comes of it.
void check_added_once(tune::PlayerTune here, const tune::PlayerTune& filed) {
    for (const repertoire::EventToAdd& added : repertoire::events_to_add(here, filed.events)) add(here, added);
    check_tune(here);
    INVARIANT(repertoire::events_to_add(here, filed.events).empty());
}

}  // namespace

void try_players(const std::string& bytes) {
    std::vector<repertoire::FiledPlayer> players;
    try {
        players = repertoire::read_players(bytes);
    } catch (const repertoire::PlayersFileFault& fault) {
        INVARIANT(!std::string_view(fault.what()).empty());
        return;
    }
    std::set<std::string> names;
    std::vector<const repertoire::FiledTune*> tunes;
    for (const repertoire::FiledPlayer& filed : players) {
        INVARIANT(base::is_utf8(filed.player.name.text) && !filed.player.name.folded.empty());
        INVARIANT(names.insert(filed.player.name.folded).second);
        for (const repertoire::FiledTune& tune : filed.tunes) {
            check_tune(tune.said);
            tunes.push_back(&tune);
        }
    }
    // Written and read again all is the same, and writing it again changes no byte.
    const std::string text = repertoire::write_players(players);
    INVARIANT(base::is_utf8(text));
    const std::vector<repertoire::FiledPlayer> again = repertoire::read_players(text);
    INVARIANT(again == players);
    INVARIANT(repertoire::write_players(again) == text);

    // Every tune of the file stands here, at its place; then each is that one, or one that cannot be told from it.
    std::vector<repertoire::TuneHere> here;
    for (const repertoire::FiledTune* tune : tunes) {
        if (tune->file.empty()) continue;
        here.push_back({{static_cast<std::int64_t>(here.size() + 1)}, {tune->title}, {{tune->file, tune->number}}});
    }
    const std::size_t most = std::min<std::size_t>(tunes.size(), 8);
    for (std::size_t at = 0; at < most; ++at) {
        if (const auto meant = repertoire::tune_meant(*tunes[at], here))
            INVARIANT(meant->id.value >= 1 && meant->id.value <= static_cast<std::int64_t>(here.size()));
        check_added_once({}, tunes[at]->said);
        check_added_once(tunes[at]->said, tunes[at]->said);
        check_added_once(tunes[0]->said, tunes[at]->said);
    }
}

}  // namespace fuzz
