// Tested by players_test.cc.
#include "library/players.h"

#include <algorithm>
#include <map>

#include "base/failure.h"
#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/player_row.h"
#include "library/statement.h"

namespace library {

namespace {

using Half = std::uint64_t (*)(const music::NoteSet&);

std::uint64_t low_of(const music::NoteSet& notes) { return notes.low(); }
std::uint64_t high_of(const music::NoteSet& notes) { return notes.high(); }

std::int64_t half_of(const music::NoteSet& notes, Half half) { return static_cast<std::int64_t>(half(notes)); }

std::optional<std::int64_t> half_of(const std::optional<music::NoteSet>& notes, Half half) {
    return notes ? std::optional(half_of(*notes, half)) : std::nullopt;
}

// Of a family: what is said of any of its tunes is said of it. In one IN, for which there is an index, not with an OR.
constexpr std::string_view kOfFamily =
    " player_id = ?1 AND tune_id IN (SELECT ?2 UNION ALL SELECT id FROM tune WHERE family_id = ?2)";

// Rows that say something of a tune by being there.
struct List {
    std::string_view table;
    std::string_view name;       // in player_before
    std::string_view text;       // an expression: what a row says beside being there
    std::string_view there;      // what was said when a row was written,
    std::string_view not_there;  // and when it was deleted
};

constexpr List kWishes{"player_wish", "wish", "''", "wished", "unwished"};
constexpr List kExclusions{"player_exclusion", "exclusion", "reason", "unwanted", "allowed"};

const List& list_named(std::string_view name) { return name == kWishes.name ? kWishes : kExclusions; }

}  // namespace

class Players::Change {
public:
    explicit Change(const std::filesystem::path& file)
        : database(open_existing_library(file, Access::write)), transaction(*database) {}

    // The number of what is said of this player's tunes with this change.
    std::int64_t of(tune::PlayerId player) {
        std::int64_t& number = numbers_[player.value];
        if (number == 0) {
            require(player);
            Statement(*database, "INSERT INTO player_change (player_id) VALUES (?1)").bind(player.value).run();
            number = database->last_id();
        }
        return number;
    }

    void require(tune::PlayerId player) const {
        Statement there(*database, "SELECT 1 FROM player WHERE id = ?1");
        if (!there.bind(player.value).step())
            throw base::Failure("write to", database->file(), "the player was removed meanwhile; nothing was changed");
    }

    // What the tune's rows of a list say, by the tune they are of.
    std::map<std::int64_t, std::string> rows_of(const List& list, tune::PlayerId player, tune::TuneId tune) const {
        Statement rows(*database, "SELECT tune_id, " + std::string(list.text) + " FROM " + std::string(list.table) +
                                      " WHERE" + std::string(kOfFamily));
        rows.bind(player.value, tune.value);
        std::map<std::int64_t, std::string> texts;
        while (rows.step()) texts.emplace(rows.number(0), rows.text(1));
        return texts;
    }

    // From now on the tune's rows of a list are one that says `text`, or none.
    bool write(const List& list, tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& text) {
        const std::map<std::int64_t, std::string> before = rows_of(list, player, tune);
        const bool is_so = text ? !before.empty() && before.rbegin()->second == *text : before.empty();
        if (is_so) return false;
        for (const auto& [id, was] : before) {
            note_before(list, player, id, was);
            put(list, player, id, std::nullopt);
        }
        if (text) {
            if (!before.contains(tune.value)) note_before(list, player, tune.value, std::nullopt);
            put(list, player, tune.value, text);
        }
        return true;
    }

    void put(const List& list, tune::PlayerId player, std::int64_t tune, const std::optional<std::string>& text) {
        const std::string table(list.table);
        Statement(*database, "DELETE FROM " + table + " WHERE player_id = ?1 AND tune_id = ?2")
            .bind(player.value, tune)
            .run();
        if (!text) return;
        if (list.table == kWishes.table)
            Statement(*database, "INSERT INTO player_wish (player_id, tune_id) VALUES (?1, ?2)")
                .bind(player.value, tune)
                .run();
        else
            Statement(*database, "INSERT INTO player_exclusion (player_id, tune_id, reason) VALUES (?1, ?2, ?3)")
                .bind(player.value, tune, *text)
                .run();
    }

    void insert(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event,
                const std::optional<std::int64_t>& place) {
        const std::string day = base::to_string(event.day);
        Statement row(*database,
                      "INSERT INTO player_event (player_id, tune_id, day, event, place, change_id)"
                      " VALUES (?1, ?2, ?3, ?4, ?5, ?6)");
        row.bind(player.value, tune.value, day, tune::event_token(event.event), place, of(player)).run();
    }

    std::unique_ptr<Database> database;  // before what uses it
    Transaction transaction;

private:
    void note_before(const List& list, tune::PlayerId player, std::int64_t tune,
                     const std::optional<std::string>& was) {
        Statement row(*database, "INSERT INTO player_before (change_id, tune_id, list, was) VALUES (?1, ?2, ?3, ?4)");
        row.bind(of(player), tune, list.name, was).run();
    }

    std::map<std::int64_t, std::int64_t> numbers_;
};

Players::Players(std::unique_ptr<Change> change) : change_(std::move(change)) {}
Players::Players(Players&&) noexcept = default;
Players::~Players() = default;

Players Players::change(const std::filesystem::path& file) { return Players(std::make_unique<Change>(file)); }

std::optional<tune::Player> Players::named(const tune::PlayerName& name) const {
    return read_player(*change_->database, name.folded);
}

tune::PlayerTune Players::said_of(tune::PlayerId player, tune::TuneId tune) const {
    tune::PlayerTune said{tune, {}, false, {}};
    Statement rows(*change_->database, "SELECT day, event FROM player_event WHERE" + std::string(kOfFamily) +
                                           " ORDER BY day, coalesce(place, id), id");
    rows.bind(player.value, tune.value);
    while (rows.step()) {
        const auto event = tune::parse_event(rows.text(1));
        INVARIANT(event);
        said.events.push_back({base::read_date(rows.text(0)), *event});
    }
    said.wished = !change_->rows_of(kWishes, player, tune).empty();
    const auto exclusions = change_->rows_of(kExclusions, player, tune);
    if (!exclusions.empty()) said.excluded = exclusions.rbegin()->second;
    return said;
}

std::optional<tune::PlayerId> Players::add(const tune::Player& player) {
    if (named(player.name)) return std::nullopt;
    Statement row(*change_->database,
                  "INSERT INTO player (folded, name, instrument, low, high) VALUES (?1, ?2, ?3, ?4, ?5)");
    row.bind(player.name.folded, player.name.text, player.instrument, half_of(player.notes, low_of),
             half_of(player.notes, high_of))
        .run();
    return tune::PlayerId{change_->database->last_id()};
}

void Players::rename(tune::PlayerId player, const tune::PlayerName& name) {
    change_->require(player);
    Statement row(*change_->database, "UPDATE player SET folded = ?2, name = ?3 WHERE id = ?1");
    row.bind(player.value, name.folded, name.text).run();
}

void Players::set_instrument(tune::PlayerId player, const std::string& instrument) {
    change_->require(player);
    Statement row(*change_->database, "UPDATE player SET instrument = ?2 WHERE id = ?1");
    row.bind(player.value, instrument).run();
}

void Players::set_notes(tune::PlayerId player, const std::optional<music::NoteSet>& notes) {
    change_->require(player);
    Statement row(*change_->database, "UPDATE player SET low = ?2, high = ?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

void Players::add_notes(tune::PlayerId player, const music::NoteSet& notes) {
    change_->require(player);
    Statement row(*change_->database,
                  "UPDATE player SET low = coalesce(low, 0) | ?2, high = coalesce(high, 0) | ?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

void Players::drop_notes(tune::PlayerId player, const music::NoteSet& notes) {
    change_->require(player);
    Statement row(*change_->database, "UPDATE player SET low = low & ~?2, high = high & ~?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

void Players::remove(tune::PlayerId player) {
    change_->require(player);
    Statement(*change_->database, "DELETE FROM player WHERE id = ?1").bind(player.value).run();
}

bool Players::record(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event) {
    const std::string day = base::to_string(event.day);
    Statement last(*change_->database, "SELECT event FROM player_event WHERE" + std::string(kOfFamily) +
                                           " AND day = ?3 ORDER BY coalesce(place, id) DESC, id DESC LIMIT 1");
    if (last.bind(player.value, tune.value, day).step() && last.text(0) == tune::event_token(event.event)) return false;
    change_->insert(player, tune, event, std::nullopt);
    return true;
}

void Players::record_before(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event) {
    const std::string day = base::to_string(event.day);
    Statement first(*change_->database, "SELECT min(coalesce(place, id)) - 1 FROM player_event WHERE" +
                                            std::string(kOfFamily) + " AND day = ?3");
    std::optional<std::int64_t> place;
    if (first.bind(player.value, tune.value, day).step() && !first.is_null(0)) place = first.number(0);
    change_->insert(player, tune, event, place);
}

bool Players::wish(tune::PlayerId player, tune::TuneId tune, bool is_wished) {
    return change_->write(kWishes, player, tune, is_wished ? std::optional<std::string>("") : std::nullopt);
}

bool Players::exclude(tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& reason) {
    return change_->write(kExclusions, player, tune, reason);
}

std::vector<TakenBack> Players::take_back(tune::PlayerId player) {
    const Database& database = *change_->database;
    Statement last(database, "SELECT max(id) FROM player_change WHERE player_id = ?1");
    if (!last.bind(player.value).step() || last.is_null(0)) return {};
    const std::int64_t number = last.number(0);

    std::vector<TakenBack> taken;
    Statement events(database,
                     "SELECT coalesce(t.family_id, t.id), e.event, e.day FROM player_event e"
                     " JOIN tune t ON t.id = e.tune_id WHERE e.change_id = ?1 ORDER BY e.id");
    events.bind(number);
    while (events.step())
        taken.push_back({tune::TuneId{events.number(0)}, std::string(events.text(1)), base::read_date(events.text(2))});

    struct Before {
        tune::TuneId family;
        std::int64_t tune;
        const List* list;
        std::optional<std::string> was;
    };
    std::vector<Before> befores;
    Statement rows(database,
                   "SELECT coalesce(t.family_id, t.id), b.tune_id, b.list, b.was FROM player_before b"
                   " JOIN tune t ON t.id = b.tune_id WHERE b.change_id = ?1 ORDER BY b.id");
    rows.bind(number);
    while (rows.step())
        befores.push_back(
            {tune::TuneId{rows.number(0)}, rows.number(1), &list_named(rows.text(2)), rows.optional_text(3)});
    for (const Before& before : befores) {  // one word for all the rows of a tune
        const bool is_there = !change_->rows_of(*before.list, player, before.family).empty();
        TakenBack mark{before.family, std::string(is_there ? before.list->there : before.list->not_there), {}};
        if (std::find(taken.begin(), taken.end(), mark) == taken.end()) taken.push_back(std::move(mark));
    }
    for (auto before = befores.rbegin(); before != befores.rend(); ++before)
        change_->put(*before->list, player, before->tune, before->was);
    Statement(database, "DELETE FROM player_change WHERE id = ?1").bind(number).run();
    return taken;
}

void Players::commit() { change_->transaction.commit(); }

}  // namespace library
