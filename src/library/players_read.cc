// What players said. Tested by players_test.cc.
#include <algorithm>

#include "base/failure.h"
#include "library/database.h"
#include "library/journal_rows.h"
#include "library/library.h"
#include "library/player_row.h"
#include "library/statement.h"

namespace library {

namespace {

tune::Player player_of(const Statement& row) {
    tune::Player player;
    player.id.value = row.number(0);
    player.name = {std::string(row.text(1)), std::string(row.text(2))};
    player.instrument = row.optional_text(3);
    if (!row.is_null(4))
        player.notes =
            music::NoteSet(static_cast<std::uint64_t>(row.number(4)), static_cast<std::uint64_t>(row.number(5)));
    return player;
}

// The place of a tune among those of a player, made where there is none.
tune::PlayerTune& tune_in(std::vector<tune::PlayerTune>& tunes, std::int64_t id) {
    const auto at =
        std::lower_bound(tunes.begin(), tunes.end(), id,
                         [](const tune::PlayerTune& tune, std::int64_t value) { return tune.tune.value < value; });
    if (at != tunes.end() && at->tune.value == id) return *at;
    return *tunes.insert(at, {tune::TuneId{id}, {}, false, {}});
}

std::vector<tune::PlayerTune> tunes_of(const Database& database, tune::PlayerId player) {
    std::vector<tune::PlayerTune> tunes;
    Statement events(database,
                     "SELECT coalesce(t.family_id, t.id) AS tune, e.day, e.event FROM player_event e"
                     " JOIN tune t ON t.id = e.tune_id WHERE e.player_id = ?1"
                     " ORDER BY tune, e.day, coalesce(e.place, e.id), e.id");
    events.bind(player.value);
    while (events.step()) {
        tune_in(tunes, events.number(0)).events.push_back(event_in(database, events, 1));
    }
    Statement wishes(database,
                     "SELECT coalesce(t.family_id, t.id) FROM player_wish w JOIN tune t ON t.id = w.tune_id"
                     " WHERE w.player_id = ?1 ORDER BY 1");
    wishes.bind(player.value);
    while (wishes.step()) tune_in(tunes, wishes.number(0)).wished = true;
    Statement exclusions(database,
                         "SELECT coalesce(t.family_id, t.id), x.reason FROM player_exclusion x"
                         " JOIN tune t ON t.id = x.tune_id WHERE x.player_id = ?1 ORDER BY 1, x.tune_id");
    exclusions.bind(player.value);
    while (exclusions.step()) tune_in(tunes, exclusions.number(0)).excluded = std::string(exclusions.text(1));
    return tunes;
}

constexpr std::string_view kColumns = "SELECT id, name, folded, instrument, low, high FROM player";

}  // namespace

tune::DatedEvent event_in(const Database& database, const Statement& row, int day_column) {
    const auto event = tune::parse_event(row.text(day_column + 1));
    try {
        const base::Date day = base::read_date(row.text(day_column));
        if (event && tune::is_sayable(day)) return {day, *event};
    } catch (const base::DateFault&) {  // told below
    }
    throw base::Failure("read", database.file(),
                        "what happened to a tune of a player is damaged; gamut library check tells more");
}

std::optional<tune::Player> read_player(const Database& database, const std::string& folded_name) {
    Statement row(database, std::string(kColumns) + " WHERE folded = ?1");
    return row.bind(folded_name).step() ? std::optional(player_of(row)) : std::nullopt;
}

std::optional<collection::PlayerRecord> Library::player_named(std::string_view name) const {
    require_sound(*database_, people::Subject::players);
    const std::optional<tune::Player> player = read_player(*database_, tune::fold_player_name(name));
    return player ? std::optional(collection::PlayerRecord{*player, tunes_of(*database_, player->id)}) : std::nullopt;
}

std::vector<collection::PlayerRecord> Library::players() const {
    require_sound(*database_, people::Subject::players);
    std::vector<collection::PlayerRecord> players;
    Statement rows(*database_, std::string(kColumns) + " ORDER BY folded");
    while (rows.step()) players.push_back({player_of(rows), {}});
    for (collection::PlayerRecord& record : players) record.tunes = tunes_of(*database_, record.player.id);
    return players;
}

std::vector<collection::PlayerClass> Library::player_classes() const {
    require_sound(*database_, people::Subject::players);
    std::vector<collection::PlayerClass> classes;
    Statement rows(*database_,
                   "SELECT c.folded, c.name, p.name FROM player_class c"
                   " JOIN player_class_member m ON m.class = c.folded JOIN player p ON p.id = m.player_id"
                   " ORDER BY c.folded, p.folded");
    while (rows.step()) {
        if (classes.empty() || classes.back().name.folded != rows.text(0))
            classes.push_back({{std::string(rows.text(1)), std::string(rows.text(0))}, {}});
        classes.back().players.emplace_back(rows.text(2));
    }
    return classes;
}

std::vector<collection::PlayerHappening> Library::history_of(tune::PlayerId player) const {
    require_sound(*database_, people::Subject::players);
    std::vector<collection::PlayerHappening> history;
    Statement rows(*database_,
                   "SELECT coalesce(t.family_id, t.id), e.day, e.event FROM player_event e"
                   " JOIN tune t ON t.id = e.tune_id WHERE e.player_id = ?1"
                   " ORDER BY e.day DESC, coalesce(e.place, e.id) DESC, e.id DESC");
    rows.bind(player.value);
    while (rows.step()) {
        history.push_back({tune::TuneId{rows.number(0)}, event_in(*database_, rows, 1)});
    }
    return history;
}

}  // namespace library
