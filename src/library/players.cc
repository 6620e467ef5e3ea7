// Tested by players_test.cc.
#include "library/players.h"

#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/statement.h"

namespace library {

namespace {

std::optional<std::int64_t> half_of(const std::optional<music::NoteSet>& notes,
                                    std::uint64_t (*half)(const music::NoteSet&)) {
    return notes ? std::optional(static_cast<std::int64_t>(half(*notes))) : std::nullopt;
}

// Of a family: what is said of any of its tunes is said of it.
constexpr std::string_view kOfFamily =
    " player_id = ?1 AND (tune_id = ?2 OR tune_id IN (SELECT id FROM tune WHERE family_id = ?2))";

std::string forget_from(std::string_view table) {
    return "DELETE FROM " + std::string(table) + " WHERE" + std::string(kOfFamily);
}

}  // namespace

class Players::Change {
public:
    explicit Change(const std::filesystem::path& file)
        : database(open_existing_library(file, Access::write)), transaction(*database) {}

    // What is said with this change, among all that was ever said.
    std::int64_t said() {
        if (said_ == 0) said_ = database->number("SELECT coalesce(max(said), 0) + 1 FROM player_event");
        return said_;
    }

    std::unique_ptr<Database> database;  // before what uses it
    Transaction transaction;

private:
    std::int64_t said_ = 0;
};

Players::Players(std::unique_ptr<Change> change) : change_(std::move(change)) {}
Players::Players(Players&&) noexcept = default;
Players::~Players() = default;

Players Players::change(const std::filesystem::path& file) { return Players(std::make_unique<Change>(file)); }

std::optional<tune::PlayerId> Players::add(const tune::Player& player) {
    Statement taken(*change_->database, "SELECT 1 FROM player WHERE folded = ?1");
    if (taken.bind(player.name.folded).step()) return std::nullopt;
    Statement row(*change_->database, "INSERT INTO player (folded, name) VALUES (?1, ?2)");
    row.bind(player.name.folded, player.name.text).run();
    tune::Player added = player;
    added.id.value = change_->database->last_id();
    set(added);
    return added.id;
}

void Players::set(const tune::Player& player) {
    Statement row(*change_->database,
                  "UPDATE player SET folded = ?2, name = ?3, instrument = ?4, low = ?5, high = ?6 WHERE id = ?1");
    row.bind(player.id.value, player.name.folded, player.name.text, player.instrument,
             half_of(player.notes, [](const music::NoteSet& notes) { return notes.low(); }),
             half_of(player.notes, [](const music::NoteSet& notes) { return notes.high(); }))
        .run();
}

void Players::remove(tune::PlayerId player) {
    Statement(*change_->database, "DELETE FROM player WHERE id = ?1").bind(player.value).run();
}

void Players::record(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event) {
    const std::string day = base::to_string(event.day);
    Statement last(*change_->database, "SELECT event FROM player_event WHERE" + std::string(kOfFamily) +
                                           " AND day = ?3 ORDER BY id DESC LIMIT 1");
    if (last.bind(player.value, tune.value, day).step() && last.text(0) == tune::event_token(event.event)) return;
    Statement row(*change_->database,
                  "INSERT INTO player_event (player_id, tune_id, day, event, said) VALUES (?1, ?2, ?3, ?4, ?5)");
    row.bind(player.value, tune.value, day, tune::event_token(event.event), change_->said()).run();
}

std::vector<tune::PlayerTune> Players::take_back(tune::PlayerId player) {
    Statement rows(
        *change_->database,
        "SELECT coalesce(t.family_id, t.id), e.day, e.event FROM player_event e JOIN tune t ON t.id = e.tune_id"
        " WHERE e.player_id = ?1 AND e.said = (SELECT max(said) FROM player_event WHERE player_id = ?1)"
        " ORDER BY e.id");
    rows.bind(player.value);
    std::vector<tune::PlayerTune> taken;
    while (rows.step()) {
        const auto event = tune::parse_event(rows.text(2));
        INVARIANT(event);
        taken.push_back({tune::TuneId{rows.number(0)}, {{base::read_date(rows.text(1)), *event}}, false, {}});
    }
    Statement(*change_->database,
              "DELETE FROM player_event WHERE player_id = ?1 AND said ="
              " (SELECT max(said) FROM player_event WHERE player_id = ?1)")
        .bind(player.value)
        .run();
    return taken;
}

void Players::wish(tune::PlayerId player, tune::TuneId tune, bool is_wished) {
    Statement(*change_->database, forget_from("player_wish")).bind(player.value, tune.value).run();
    if (!is_wished) return;
    Statement row(*change_->database, "INSERT INTO player_wish (player_id, tune_id) VALUES (?1, ?2)");
    row.bind(player.value, tune.value).run();
}

void Players::exclude(tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& reason) {
    Statement(*change_->database, forget_from("player_exclusion")).bind(player.value, tune.value).run();
    if (!reason) return;
    Statement row(*change_->database, "INSERT INTO player_exclusion (player_id, tune_id, reason) VALUES (?1, ?2, ?3)");
    row.bind(player.value, tune.value, *reason).run();
}

void Players::commit() { change_->transaction.commit(); }

}  // namespace library
