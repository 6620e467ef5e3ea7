// Tested by player_named_test.cc.
#include "answers/player_named.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <vector>

#include "instruments/known.h"
#include "repertoire/notes_at_hand.h"

namespace answers {

namespace {

// Of the settings of a tune the one that asks for fewest notes beyond `have`, then for fewest; gone ones where there is
// no other.
music::NoteSet easiest(const collection::Collection& collection, tune::TuneId id, const music::NoteSet& have) {
    std::vector<tune::TuneRecord> settings = collection.settings_of(id);
    if (settings.empty())
        if (auto gone = collection.tune_by_id(id)) settings.push_back(std::move(*gone));
    const auto best = std::min_element(settings.begin(), settings.end(), [&](const auto& one, const auto& other) {
        return std::tuple(one.needed.without(have).size(), one.needed.size()) <
               std::tuple(other.needed.without(have).size(), other.needed.size());
    });
    return best == settings.end() ? music::NoteSet() : best->needed;
}

}  // namespace

collection::PlayerRecord player_named(const collection::Collection& collection, const std::string& name) {
    if (auto record = collection.player_named(name)) return std::move(*record);
    if (auto named = class_named(collection, name))
        throw Refused({Part::none, Reason::one_of_class, named->name.text, std::move(named->players)});
    std::vector<std::string> names;
    for (const collection::PlayerRecord& record : collection.players()) names.push_back(record.player.name.text);
    if (names.empty()) throw Refused({Part::none, Reason::no_players, name});
    throw Refused({Part::none, Reason::unknown_player, name, std::move(names)});
}

std::optional<collection::PlayerClass> class_named(const collection::Collection& collection, std::string_view name) {
    const std::string folded = tune::fold_player_name(name);
    for (collection::PlayerClass& one : collection.player_classes())
        if (one.name.folded == folded && !collection.player_named(name)) return std::move(one);
    return std::nullopt;
}

PlayersMeant players_meant(const collection::Collection& collection, const std::vector<std::string>& names) {
    PlayersMeant meant;
    std::set<std::string> once;
    const auto add = [&](const std::string& name) {
        if (once.insert(tune::fold_player_name(name)).second) meant.names.push_back(name);
    };
    for (const std::string& name : names) {
        const auto named = class_named(collection, name);
        if (!named) {
            add(name);
            continue;
        }
        for (const std::string& member : named->players) add(member);
        meant.classes.push_back(*named);
    }
    return meant;
}

const instruments::Instrument* known_instrument_of(const tune::Player& player) {
    return player.instrument ? instruments::find(*player.instrument) : nullptr;
}

const instruments::Instrument* instrument_of(const tune::Player& player) {
    const instruments::Instrument* known = known_instrument_of(player);
    if (player.instrument && known == nullptr)
        throw Refused({Part::none, Reason::strange_instrument, player.name.text, {*player.instrument}});
    return known;
}

music::NoteSet notes_of(const collection::Collection& collection, const collection::PlayerRecord& record) {
    const music::NoteSet said = record.player.notes.value_or(music::NoteSet());
    std::vector<music::NoteSet> known;
    for (const tune::PlayerTune& tune : record.tunes) {
        const auto state = tune::state_of(tune);
        if (state == tune::TuneState::known || state == tune::TuneState::rusty)
            known.push_back(easiest(collection, tune.tune, said));
    }
    return repertoire::notes_at_hand(record.player, known, known_instrument_of(record.player));
}

music::NoteSet some_notes_of(const collection::Collection& collection, const collection::PlayerRecord& record) {
    instrument_of(record.player);
    const music::NoteSet notes = notes_of(collection, record);
    if (notes.empty()) throw Refused({Part::none, Reason::no_notes_yet, record.player.name.text});
    return notes;
}

music::NamedNotes names_in(const collection::Collection& collection) {
    return [&collection](std::string_view name) -> std::optional<music::NoteSet> {
        if (const instruments::Instrument* known = instruments::find(name)) return known->note_set();
        if (const auto record = collection.player_named(name)) return some_notes_of(collection, *record);
        const auto named = class_named(collection, name);
        if (!named) return std::nullopt;
        music::NoteSet common = music::every_note();
        for (const std::string& member : named->players)
            common = common & some_notes_of(collection, player_named(collection, member));
        if (common.empty()) throw Refused({Part::players, Reason::no_note_in_common});
        return common;
    };
}

}  // namespace answers
