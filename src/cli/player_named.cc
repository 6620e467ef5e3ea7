#include "cli/player_named.h"

#include <algorithm>
#include <tuple>
#include <vector>

#include "base/utf8.h"
#include "cli/shell_word.h"
#include "cli/terminal.h"
#include "instruments/known.h"
#include "repertoire/notes_at_hand.h"

namespace cli {

namespace {

constexpr std::size_t kMostNames = 12;

std::string names_of(const std::vector<collection::PlayerRecord>& players) {
    std::string names;
    for (std::size_t at = 0; at < std::min(players.size(), kMostNames); ++at)
        names += (at ? ", " : "") + players[at].player.name.text;
    return players.size() > kMostNames ? names + " ..." : names;
}

// Of the settings of a tune the one that asks for fewest notes beyond `have`, then for fewest; gone ones where there is
// no other.
music::NoteSet easiest(const collection::Collection& library, tune::TuneId id, const music::NoteSet& have) {
    std::vector<tune::TuneRecord> settings = library.settings_of(id);
    if (settings.empty())
        if (auto gone = library.tune_by_id(id)) settings.push_back(std::move(*gone));
    const auto best = std::min_element(settings.begin(), settings.end(), [&](const auto& one, const auto& other) {
        return std::tuple(one.needed.without(have).size(), one.needed.size()) <
               std::tuple(other.needed.without(have).size(), other.needed.size());
    });
    return best == settings.end() ? music::NoteSet() : best->needed;
}

}  // namespace

collection::PlayerRecord player_named(const collection::Collection& library, const std::string& name) {
    if (auto record = library.player_named(name)) return std::move(*record);
    const std::string shown = "there is no player \"" + base::printable(name) + "\"";
    const std::vector<collection::PlayerRecord> players = library.players();
    if (players.empty()) throw Misuse(shown + ", nor any other; gamut player add NAME makes one");
    throw Misuse(shown + "; there are: " + names_of(players));
}

void refuse_name_of_instrument(const tune::PlayerName& name) {
    for (const std::string& id : instruments::ids())
        if (tune::fold_player_name(id) == name.folded)
            throw Misuse("\"" + name.text + "\" is the name of an instrument; @" + id +
                         " would mean two things; choose another name");
}

tune::PlayerName new_player_name(const std::string& written) {
    try {
        tune::PlayerName name = tune::read_player_name(written);
        refuse_name_of_instrument(name);
        return name;
    } catch (const tune::PlayerNameFault& fault) {
        throw Misuse(fault.what());
    }
}

const instruments::Instrument* known_instrument_of(const tune::Player& player) {
    return player.instrument ? instruments::find(*player.instrument) : nullptr;
}

const instruments::Instrument* instrument_of(const tune::Player& player) {
    if (!player.instrument) return nullptr;
    const instruments::Instrument* known = known_instrument_of(player);
    if (known == nullptr)
        throw Misuse("the instrument of " + player.name.text + ", \"" + *player.instrument +
                     "\", is none that gamut knows; gamut player change " + shell_word(player.name.text) +
                     " --instrument NAME says another");
    return known;
}

music::NoteSet notes_of(const collection::Collection& library, const collection::PlayerRecord& record) {
    const music::NoteSet said = record.player.notes.value_or(music::NoteSet());
    std::vector<music::NoteSet> known;
    for (const tune::PlayerTune& tune : record.tunes) {
        const auto state = tune::state_of(tune);
        if (state == tune::TuneState::known || state == tune::TuneState::rusty)
            known.push_back(easiest(library, tune.tune, said));
    }
    return repertoire::notes_at_hand(record.player, known, known_instrument_of(record.player));
}

music::NoteSet some_notes_of(const collection::Collection& library, const collection::PlayerRecord& record) {
    instrument_of(record.player);
    const music::NoteSet notes = notes_of(library, record);
    const std::string& name = record.player.name.text;
    if (notes.empty())
        throw Misuse(name + " has no notes yet; say them with gamut player notes " + shell_word(name) +
                     " NOTES, or name tunes that " + name + " knows with gamut player tune " + shell_word(name) +
                     " known TITLES");
    return notes;
}

}  // namespace cli
