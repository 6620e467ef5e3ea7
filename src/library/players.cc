// Each change is said in the journal and done in the tables; taking back makes the tables anew. Tested by
// players_test.cc; rebuild_test.cc holds the two together.
#include "library/players.h"

#include <algorithm>
#include <map>

#include "base/failure.h"
#include "library/existing_library.h"
#include "library/journal_rows.h"
#include "library/player_row.h"
#include "library/statement.h"
#include "people/last_go.h"

namespace library {

namespace {

using people::Seal;
using people::Subject;

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
    std::string_view text;       // an expression: what a row says beside being there
    std::string_view there;      // what was said when a row was written,
    std::string_view not_there;  // and when it was deleted
};

constexpr List kWishes{"player_wish", "''", "wished", "unwished"};
constexpr List kExclusions{"player_exclusion", "reason", "unwanted", "allowed"};

bool is_wish(std::string_view word) { return word == kWishes.there || word == kWishes.not_there; }

// Of what a player says of a tune, what is told when it is taken back.
struct SaidOfTune {
    Seal player;
    std::int64_t tune = 0;
    std::string word;
    std::optional<base::Date> day;
    bool is_event = false;
};

std::optional<SaidOfTune> said_of_tune(const people::Words& words) {
    if (const auto* said = std::get_if<people::Happened>(&words))
        return SaidOfTune{said->player, said->tune.id.value, std::string(tune::event_token(said->what.event)),
                          said->what.day, true};
    const auto word_of = [](const List& list, bool is_there) {
        return std::string(is_there ? list.there : list.not_there);
    };
    if (const auto* said = std::get_if<people::WishSaid>(&words))
        return SaidOfTune{said->player, said->tune.id.value, word_of(kWishes, said->is_wished), std::nullopt, false};
    if (const auto* said = std::get_if<people::ExclusionSaid>(&words))
        return SaidOfTune{said->player, said->tune.id.value, word_of(kExclusions, said->reason.has_value()),
                          std::nullopt, false};
    return std::nullopt;
}

}  // namespace

class Players::Change {
public:
    Change(const std::filesystem::path& file, std::optional<base::Date> day)
        : database(open_existing_library(file, Access::write)), transaction(*database), journal(sound(), day) {}

    void require(tune::PlayerId player) const {
        Statement there(*database, "SELECT 1 FROM player WHERE id = ?1");
        if (!there.bind(player.value).step())
            throw base::Failure("write to", database->file(), "the player was removed meanwhile; nothing was changed");
    }

    // By which the player is named in sayings.
    const Seal& seal_of(tune::PlayerId player) {
        Seal& seal = seals_[player.value];
        if (!seal.empty()) return seal;
        require(player);
        Statement row(*database, "SELECT seal FROM saying WHERE id = ?1");
        if (!row.bind(player.value).step())
            throw base::Failure("read", database->file(),
                                "it is not said anywhere that there is such a player; gamut library check tells more");
        return seal = row.text(0);
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
        std::vector<std::int64_t> others;
        for (const auto& [id, was] : before) {
            put(list, player, id, std::nullopt);
            if (id != tune.value) others.push_back(id);
        }
        put(list, player, tune.value, text);
        const Seal& seal = seal_of(player);
        if (list.table == kWishes.table)
            journal.say(people::WishSaid{seal, journal.named(tune.value), journal.named(others), text.has_value()});
        else
            journal.say(people::ExclusionSaid{seal, journal.named(tune.value), journal.named(others), text});
        return true;
    }

    void insert(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event, bool is_first,
                const std::optional<std::int64_t>& place) {
        people::Happened said{seal_of(player), journal.named(tune.value), {}, event, is_first};
        if (is_first) said.among = journal.named(others_of(tune));
        journal.say(std::move(said));
        const std::string day = base::to_string(event.day);
        Statement row(*database,
                      "INSERT INTO player_event (id, player_id, tune_id, day, event, place)"
                      " VALUES (?1, ?2, ?3, ?4, ?5, ?6)");
        row.bind(journal.last_rank(), player.value, tune.value, day, tune::event_token(event.event), place).run();
    }

    void commit() {
        store_sum(*database, Subject::players);
        transaction.commit();
        if (has_erased) clear_erased(*database);
    }

    std::unique_ptr<Database> database;  // before what uses it
    Transaction transaction;
    Journal journal;
    bool has_erased = false;

private:
    const Database& sound() const {
        require_sound(*database, Subject::players);
        return *database;
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

    // Of which the order of events is told apart: tunes of the family that have some.
    std::vector<std::int64_t> others_of(tune::TuneId tune) const {
        std::vector<std::int64_t> others;
        Statement rows(*database,
                       "SELECT id FROM tune WHERE family_id = ?1 AND id <> ?1 AND EXISTS"
                       " (SELECT 1 FROM player_event e WHERE e.tune_id = tune.id) ORDER BY id");
        rows.bind(tune.value);
        while (rows.step()) others.push_back(rows.number(0));
        return others;
    }

    std::map<std::int64_t, Seal> seals_;
};

Players::Players(std::unique_ptr<Change> change) : change_(std::move(change)) {}
Players::Players(Players&&) noexcept = default;
Players::~Players() = default;

Players Players::change(const std::filesystem::path& file, std::optional<base::Date> day) {
    return Players(std::make_unique<Change>(file, day));
}

std::optional<tune::Player> Players::named(const tune::PlayerName& name) const {
    return read_player(*change_->database, name.folded);
}

tune::PlayerTune Players::said_of(tune::PlayerId player, tune::TuneId tune) const {
    tune::PlayerTune said{tune, {}, false, {}};
    Statement rows(*change_->database, "SELECT day, event FROM player_event WHERE" + std::string(kOfFamily) +
                                           " ORDER BY day, coalesce(place, id), id");
    rows.bind(player.value, tune.value);
    while (rows.step()) said.events.push_back(event_in(*change_->database, rows, 0));
    said.wished = !change_->rows_of(kWishes, player, tune).empty();
    const auto exclusions = change_->rows_of(kExclusions, player, tune);
    if (!exclusions.empty()) said.excluded = exclusions.rbegin()->second;
    return said;
}

std::optional<tune::PlayerId> Players::add(const tune::Player& player) {
    if (named(player.name)) return std::nullopt;
    change_->journal.say(people::PlayerAdded{player.name.text, player.instrument, player.notes});
    Statement row(*change_->database,
                  "INSERT INTO player (id, folded, name, instrument, low, high) VALUES (?1, ?2, ?3, ?4, ?5, ?6)");
    row.bind(change_->journal.last_number(), player.name.folded, player.name.text, player.instrument,
             half_of(player.notes, low_of), half_of(player.notes, high_of))
        .run();
    return tune::PlayerId{change_->database->last_id()};
}

std::vector<std::string> Players::rename(tune::PlayerId player, const tune::PlayerName& name, const InTerm& in_term) {
    change_->journal.say(people::PlayerChanged{change_->seal_of(player), name.text, std::nullopt});
    Statement row(*change_->database, "UPDATE player SET folded = ?2, name = ?3 WHERE id = ?1");
    row.bind(player.value, name.folded, name.text).run();
    if (!in_term) return {};
    return rewrite_terms(*change_->database, change_->journal, in_term);
}

void Players::set_instrument(tune::PlayerId player, const std::string& instrument) {
    change_->journal.say(people::PlayerChanged{change_->seal_of(player), std::nullopt, instrument});
    Statement row(*change_->database, "UPDATE player SET instrument = ?2 WHERE id = ?1");
    row.bind(player.value, instrument).run();
}

void Players::set_notes(tune::PlayerId player, const std::optional<music::NoteSet>& notes) {
    change_->journal.say(people::NotesSaid{change_->seal_of(player), people::NotesChange::are, notes});
    Statement row(*change_->database, "UPDATE player SET low = ?2, high = ?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

void Players::add_notes(tune::PlayerId player, const music::NoteSet& notes) {
    change_->journal.say(people::NotesSaid{change_->seal_of(player), people::NotesChange::more, notes});
    Statement row(*change_->database,
                  "UPDATE player SET low = coalesce(low, 0) | ?2, high = coalesce(high, 0) | ?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

void Players::drop_notes(tune::PlayerId player, const music::NoteSet& notes) {
    change_->journal.say(people::NotesSaid{change_->seal_of(player), people::NotesChange::less, notes});
    Statement row(*change_->database, "UPDATE player SET low = low & ~?2, high = high & ~?3 WHERE id = ?1");
    row.bind(player.value, half_of(notes, low_of), half_of(notes, high_of)).run();
}

std::vector<tune::PlayerName> Players::remove(tune::PlayerId player, const WithoutNames& in_term) {
    const Seal seal = change_->seal_of(player);
    const Database& database = *change_->database;
    database.exec("PRAGMA secure_delete = ON");
    const std::vector<people::Entry> entries = entries_of(database, Subject::players);
    const people::Kept kept = fold_journal(database, Subject::players);
    const auto is_of_player = [&](const Seal& one) {
        const auto found = kept.player_seals.find(one);
        return found != kept.player_seals.end() && found->second == player.value;
    };
    std::vector<Seal> all;
    std::map<std::string, tune::PlayerName> names;
    const auto take_name = [&](const std::string& text) {
        std::string folded = tune::fold_player_name(text);
        const auto other = read_player(database, folded);
        if (!other || other->id == player) names.emplace(text, tune::PlayerName{text, std::move(folded)});
    };
    for (const people::Entry& entry : entries) {
        const Seal* of = people::player_of(entry.saying.words);
        if (!is_of_player(entry.seal) && (of == nullptr || !is_of_player(*of))) continue;
        all.push_back(entry.seal);
        if (const auto* added = std::get_if<people::PlayerAdded>(&entry.saying.words)) take_name(added->name);
        if (const auto* changed = std::get_if<people::PlayerChanged>(&entry.saying.words); changed && changed->name)
            take_name(*changed->name);
    }
    std::vector<tune::PlayerName> all_names;
    for (auto& [text, name] : names) all_names.push_back(std::move(name));
    change_->journal.erase(all);
    change_->has_erased = true;
    change_->journal.say(people::PlayerGone{seal});
    Statement(database, "DELETE FROM player_class_member WHERE player_id = ?1").bind(player.value).run();
    database.exec("DELETE FROM player_class WHERE folded NOT IN (SELECT class FROM player_class_member)");
    Statement(database, "DELETE FROM player WHERE id = ?1").bind(player.value).run();
    if (in_term)
        forget_in_terms(database, change_->journal, [&](const std::string& text) { return in_term(text, all_names); });
    return all_names;
}

void Players::set_class(const tune::PlayerName& name, const std::vector<tune::PlayerId>& players) {
    people::ClassSaid said{name.text, {}};
    for (const tune::PlayerId player : players) said.members.push_back(change_->seal_of(player));
    change_->journal.say(std::move(said));
    const Database& database = *change_->database;
    Statement(database, "DELETE FROM player_class_member WHERE class = ?1").bind(name.folded).run();
    Statement(database,
              "INSERT INTO player_class (folded, name) VALUES (?1, ?2)"
              " ON CONFLICT (folded) DO UPDATE SET name = excluded.name")
        .bind(name.folded, name.text)
        .run();
    Statement member(database, "INSERT OR IGNORE INTO player_class_member (class, player_id) VALUES (?1, ?2)");
    for (const tune::PlayerId player : players) member.bind(name.folded, player.value).run();
}

bool Players::remove_class(const tune::PlayerName& name) {
    Statement there(*change_->database, "SELECT 1 FROM player_class WHERE folded = ?1");
    if (!there.bind(name.folded).step()) return false;
    change_->journal.say(people::ClassGone{name.folded});
    Statement(*change_->database, "DELETE FROM player_class_member WHERE class = ?1").bind(name.folded).run();
    Statement(*change_->database, "DELETE FROM player_class WHERE folded = ?1").bind(name.folded).run();
    return true;
}

bool Players::record(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event) {
    const std::string day = base::to_string(event.day);
    Statement last(*change_->database, "SELECT event FROM player_event WHERE" + std::string(kOfFamily) +
                                           " AND day = ?3 ORDER BY coalesce(place, id) DESC, id DESC LIMIT 1");
    if (last.bind(player.value, tune.value, day).step() && last.text(0) == tune::event_token(event.event)) return false;
    change_->insert(player, tune, event, false, std::nullopt);
    return true;
}

void Players::record_before(tune::PlayerId player, tune::TuneId tune, const tune::DatedEvent& event) {
    const std::string day = base::to_string(event.day);
    Statement first(*change_->database, "SELECT min(coalesce(place, id)) - 1 FROM player_event WHERE" +
                                            std::string(kOfFamily) + " AND day = ?3");
    std::optional<std::int64_t> place;
    if (first.bind(player.value, tune.value, day).step() && !first.is_null(0)) place = first.number(0);
    change_->insert(player, tune, event, true, place);
}

bool Players::wish(tune::PlayerId player, tune::TuneId tune, bool is_wished) {
    return change_->write(kWishes, player, tune, is_wished ? std::optional<std::string>("") : std::nullopt);
}

bool Players::exclude(tune::PlayerId player, tune::TuneId tune, const std::optional<std::string>& reason) {
    return change_->write(kExclusions, player, tune, reason);
}

std::vector<TakenBack> Players::take_back(tune::PlayerId player) {
    change_->require(player);
    const Database& database = *change_->database;
    const std::vector<people::Entry> entries = entries_of(database, Subject::players);
    const people::Kept kept = fold_journal(database, Subject::players);
    const std::vector<const people::Entry*> last = people::last_go(entries, [&](const people::Words& words) {
        const auto said = said_of_tune(words);
        const auto whose = said ? kept.player_seals.find(said->player) : kept.player_seals.end();
        return whose != kept.player_seals.end() && whose->second == player.value;
    });
    if (last.empty()) return {};

    std::vector<TakenBack> taken;
    people::TakenBack back;
    TunesHere here(database);
    Statement family(database, "SELECT coalesce(family_id, id) FROM tune WHERE id = ?1");
    const auto family_of = [&](const people::Entry& entry) {
        std::int64_t id = said_of_tune(entry.saying.words)->tune;
        if (entry.is_from_elsewhere)
            if (const auto* named = people::tune_of(entry.saying.words)) id = here(*named).value;
        const Reset reset(family);
        return tune::TuneId{family.bind(id).step() ? family.number(0) : id};
    };
    for (const bool is_event : {true, false})
        for (const people::Entry* entry : last) {
            const SaidOfTune said = *said_of_tune(entry->saying.words);
            if (said.is_event != is_event) continue;
            const TakenBack mark{family_of(*entry), said.word, said.day};
            // Of a wish said both ways in one go, the last word.
            const auto told = std::find_if(taken.begin(), taken.end(), [&](const TakenBack& one) {
                return !one.day && one.tune == mark.tune && is_wish(one.said) == is_wish(mark.said);
            });
            if (is_event || told == taken.end())
                taken.push_back(mark);
            else
                told->said = mark.said;
        }
    for (const people::Entry* entry : last) back.sayings.push_back(entry->seal);
    change_->journal.say(std::move(back));
    rebuild(database, Subject::players);
    return taken;
}

void Players::commit() { change_->commit(); }

}  // namespace library
