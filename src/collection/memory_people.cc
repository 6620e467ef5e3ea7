// What people said. Tested by both_test.cc.
#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "collection/memory.h"

namespace collection {

std::vector<TuneMark> Memory::marks() const {
    std::vector<TuneMark> marks;
    for (const auto& [head, mark] : marks_) marks.push_back(mark);
    return marks;
}

std::vector<Alias> Memory::aliases() const {
    std::vector<Alias> aliases;
    for (const auto& [folded, alias] : kept_.aliases) aliases.push_back({folded, alias.text, head_of({alias.tune})});
    return aliases;
}

std::vector<Verdict> Memory::verdicts() const {
    std::vector<std::pair<std::int64_t, Verdict>> said;
    for (const auto& [tunes, verdict] : kept_.verdicts)
        said.push_back({verdict.said, {{tunes.first}, {tunes.second}, verdict.is_same}});
    std::sort(said.begin(), said.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Verdict> verdicts;
    for (const auto& [rank, verdict] : said) verdicts.push_back(verdict);
    return verdicts;
}

PlayerRecord Memory::record_of(people::PlayerNumber number, const people::KeptPlayer& player) const {
    PlayerRecord record;
    record.player = {{number}, {player.name, player.folded}, player.instrument, player.notes};
    std::map<std::int64_t, tune::PlayerTune> tunes;
    const auto tune_of = [&](people::TuneNumber tune) -> tune::PlayerTune& {
        const tune::TuneId head = head_of({tune});
        tune::PlayerTune& its = tunes[head.value];
        its.tune = head;
        return its;
    };
    std::vector<std::tuple<base::Date, std::int64_t, std::int64_t, const people::KeptEvent*>> events;
    for (const auto& [rank, event] : kept_.events)
        if (event.player == number) events.emplace_back(event.what.day, event.place.value_or(rank), rank, &event);
    std::sort(events.begin(), events.end());
    for (const auto& [day, place, rank, event] : events) tune_of(event->tune).events.push_back(event->what);
    for (const auto& [whose, tune] : kept_.wishes)
        if (whose == number) tune_of(tune).wished = true;
    for (const auto& [whose, reason] : kept_.exclusions)
        if (whose.first == number) tune_of(whose.second).excluded = reason;
    for (auto& [head, its] : tunes) record.tunes.push_back(std::move(its));
    return record;
}

std::optional<PlayerRecord> Memory::player_named(std::string_view name) const {
    const std::string folded = tune::fold_player_name(name);
    for (const auto& [number, player] : kept_.players)
        if (player.folded == folded) return record_of(number, player);
    return std::nullopt;
}

std::vector<PlayerRecord> Memory::players() const {
    std::vector<PlayerRecord> records;
    for (const auto& [number, player] : kept_.players) records.push_back(record_of(number, player));
    std::sort(records.begin(), records.end(),
              [](const PlayerRecord& a, const PlayerRecord& b) { return a.player.name.folded < b.player.name.folded; });
    return records;
}

std::vector<PlayerClass> Memory::player_classes() const {
    std::vector<PlayerClass> classes;
    for (const auto& [folded, kept] : kept_.classes) {
        std::map<std::string, std::string> names;
        for (const people::PlayerNumber number : kept.players)
            if (const auto player = kept_.players.find(number); player != kept_.players.end())
                names.emplace(player->second.folded, player->second.name);
        PlayerClass one{{kept.name, folded}, {}};
        for (const auto& [key, name] : names) one.players.push_back(name);
        if (!one.players.empty()) classes.push_back(std::move(one));
    }
    return classes;
}

std::vector<PlayerHappening> Memory::history_of(tune::PlayerId player) const {
    std::vector<std::tuple<base::Date, std::int64_t, std::int64_t, PlayerHappening>> all;
    for (const auto& [rank, event] : kept_.events)
        if (event.player == player.value)
            all.emplace_back(event.what.day, event.place.value_or(rank), rank,
                             PlayerHappening{head_of({event.tune}), event.what});
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return std::tie(std::get<0>(b), std::get<1>(b), std::get<2>(b)) <
               std::tie(std::get<0>(a), std::get<1>(a), std::get<2>(a));
    });
    std::vector<PlayerHappening> history;
    for (const auto& one : all) history.push_back(std::get<3>(one));
    return history;
}

}  // namespace collection
