// Tested by migrate_test.cc.
#include "library/journal_begun.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/failure.h"
#include "library/journal_rows.h"
#include "tune/player.h"

namespace library {

namespace {

using people::Seal;

[[noreturn]] void fail_old_damaged(const Database& database, const std::string& what) {
    throw base::Failure("bring up to date", database.file(), what + " cannot be read");
}

struct OldPlayer {
    std::string name;
    std::optional<std::string> instrument;
    std::optional<music::NoteSet> notes;
};

// What a row of a list says from some change on; empty: there is no row.
struct OldRow {
    std::int64_t player = 0;
    std::int64_t tune = 0;
    bool is_wish = false;
    std::optional<std::string> text;
};

struct OldEvent {
    std::int64_t player = 0;
    std::int64_t tune = 0;
    tune::DatedEvent what;
    bool is_first = false;
};

struct OldChange {
    std::vector<OldEvent> events;
    std::vector<OldRow> rows;
};

struct OldVerdict {
    std::int64_t one = 0;
    std::int64_t other = 0;
    bool is_same = true;
};

struct OldTerm {
    std::string folded;
    std::string name;
    std::string text;
    std::optional<std::string> before;
};

// All that a person fills, of a library without a journal.
struct Old {
    std::vector<std::pair<std::int64_t, std::string>> tags;
    std::vector<std::pair<std::int64_t, std::int64_t>> counts;
    std::map<std::int64_t, people::Words> kinds;  // rhythms and keys, by the order they were said in
    std::vector<OldVerdict> verdicts;
    std::vector<OldTerm> terms;
    std::map<std::int64_t, OldPlayer> players;
    std::vector<OldRow> before_all;             // rows no change tells of
    std::map<std::int64_t, OldChange> changes;  // in the order they were done
};

void read_marks(const Database& database, Old& old) {
    Statement tags(database,
                   "SELECT t.tune_id, g.text FROM tune_tag t JOIN tag g ON g.id = t.tag_id ORDER BY g.id, t.tune_id");
    while (tags.step()) old.tags.emplace_back(tags.number(0), tags.text(1));
    Statement counts(database, "SELECT tune_id, times FROM tune_count ORDER BY tune_id");
    while (counts.step()) old.counts.emplace_back(counts.number(0), counts.number(1));
    const auto named = [](std::int64_t id) { return people::NamedTune{tune::TuneId{id}, std::nullopt, {}}; };
    Statement rhythms(database, "SELECT said, tune_id, rhythm FROM tune_rhythm");
    while (rhythms.step())
        old.kinds.emplace(rhythms.number(0),
                          people::RhythmSaid{named(rhythms.number(1)), {}, std::string(rhythms.text(2))});
    Statement keys(database, "SELECT said, tune_id, tonic, mode FROM tune_key");
    while (keys.step()) {
        const auto tonic = music::parse_note_name(keys.text(2));
        const auto mode = music::parse_mode(keys.text(3));
        if (!tonic || !mode) fail_old_damaged(database, "a key that was said");
        old.kinds.emplace(keys.number(0), people::KeySaid{named(keys.number(1)), {}, music::Key{*tonic, *mode}});
    }
    Statement verdicts(database, "SELECT one_id, other_id, is_same FROM verdict ORDER BY said, one_id, other_id");
    while (verdicts.step()) old.verdicts.push_back({verdicts.number(0), verdicts.number(1), verdicts.number(2) != 0});
    Statement terms(database, "SELECT folded, name, text, text_before FROM syllabus ORDER BY id");
    while (terms.step())
        old.terms.push_back({std::string(terms.text(0)), std::string(terms.text(1)), std::string(terms.text(2)),
                             terms.optional_text(3)});
}

void read_players(const Database& database, Old& old) {
    Statement players(database, "SELECT id, name, instrument, low, high FROM player ORDER BY id");
    while (players.step()) {
        OldPlayer player{std::string(players.text(1)), players.optional_text(2), std::nullopt};
        if (!players.is_null(3))
            player.notes = music::NoteSet(static_cast<std::uint64_t>(players.number(3)),
                                          static_cast<std::uint64_t>(players.number(4)));
        old.players.emplace(players.number(0), std::move(player));
    }
    Statement events(
        database, "SELECT change_id, player_id, tune_id, day, event, place FROM player_event ORDER BY change_id, id");
    while (events.step()) {
        const auto event = tune::parse_event(events.text(4));
        if (!event) fail_old_damaged(database, "something that happened to a tune of a player");
        OldEvent happened{events.number(1), events.number(2), {{}, *event}, !events.is_null(5)};
        try {
            happened.what.day = base::read_date(events.text(3));
        } catch (const base::DateFault&) {
            fail_old_damaged(database, "a day on which something happened to a tune of a player");
        }
        old.changes[events.number(0)].events.push_back(happened);
    }
}

// Each change noted what it found in the place of a row; what it left there is what the next one found, or what is
// there now.
void read_lists(const Database& database, Old& old) {
    using Place = std::pair<std::pair<std::int64_t, std::int64_t>, bool>;  // player and tune; a wish
    std::map<Place, std::string> now;
    Statement wishes(database, "SELECT player_id, tune_id FROM player_wish");
    while (wishes.step()) now[{{wishes.number(0), wishes.number(1)}, true}] = "";
    Statement exclusions(database, "SELECT player_id, tune_id, reason FROM player_exclusion");
    while (exclusions.step()) now[{{exclusions.number(0), exclusions.number(1)}, false}] = exclusions.text(2);

    struct Before {
        std::int64_t change = 0;
        std::optional<std::string> was;
    };
    std::map<Place, std::vector<Before>> befores;
    Statement rows(database,
                   "SELECT c.player_id, b.tune_id, b.list, b.was, b.change_id FROM player_before b"
                   " JOIN player_change c ON c.id = b.change_id ORDER BY b.change_id, b.id");
    while (rows.step())
        befores[{{rows.number(0), rows.number(1)}, rows.text(2) == "wish"}].push_back(
            {rows.number(4), rows.optional_text(3)});
    for (const auto& [place, text] : now) befores.try_emplace(place);
    for (const auto& [place, changes] : befores) {
        const auto& [whose, is_wish] = place;
        const auto found = now.find(place);
        const auto is_now = found == now.end() ? std::nullopt : std::optional(found->second);
        const std::optional<std::string> first = changes.empty() ? is_now : changes.front().was;
        if (first) old.before_all.push_back({whose.first, whose.second, is_wish, first});
        for (std::size_t at = 0; at < changes.size(); ++at)
            old.changes[changes[at].change].rows.push_back(
                {whose.first, whose.second, is_wish, at + 1 < changes.size() ? changes[at + 1].was : is_now});
    }
}

class Begun {
public:
    explicit Begun(const Database& database) : database_(database) {}

    void write(const Old& old) {
        {
            Journal journal(database_, std::nullopt);
            for (const auto& [tune, tag] : old.tags) journal.say(people::TagGiven{journal.named(tune), tag});
            for (const auto& [tune, times] : old.counts) journal.say(people::CountSaid{journal.named(tune), {}, times});
            for (const auto& [said, words] : old.kinds) journal.say(named(journal, words));
            for (const OldVerdict& verdict : old.verdicts)
                journal.say(
                    people::SameSaid{journal.named(verdict.one), journal.named(verdict.other), verdict.is_same});
            for (const OldTerm& term : old.terms) {
                if (term.before) journal.say(people::TermSaid{term.name, term.folded, *term.before, false});
                journal.say(people::TermSaid{term.name, term.folded, term.text, false});
            }
            for (const auto& [id, player] : old.players)
                seals_[id] = journal.say(people::PlayerAdded{player.name, player.instrument, player.notes});
        }
        write_change({{}, old.before_all});
        for (const auto& [id, change] : old.changes) write_change(change);  // each is taken back by itself
    }

private:
    static people::Words named(Journal& journal, people::Words words) {
        if (auto* rhythm = std::get_if<people::RhythmSaid>(&words)) rhythm->tune = journal.named(rhythm->tune.id.value);
        if (auto* key = std::get_if<people::KeySaid>(&words)) key->tune = journal.named(key->tune.id.value);
        return words;
    }

    const Seal& seal_of(std::int64_t player) const {
        const auto found = seals_.find(player);
        if (found == seals_.end()) fail_old_damaged(database_, "what a player who is not there said");
        return found->second;
    }

    void write_change(const OldChange& change) {
        Journal journal(database_, std::nullopt);
        for (const OldEvent& event : change.events) {
            people::Happened said{seal_of(event.player), journal.named(event.tune), {}, event.what, event.is_first};
            if (event.is_first) said.among = journal.named(others_of(event.tune));
            journal.say(std::move(said));
        }
        for (const OldRow& row : change.rows) {
            if (row.is_wish)
                journal.say(people::WishSaid{seal_of(row.player), journal.named(row.tune), {}, row.text.has_value()});
            else
                journal.say(people::ExclusionSaid{seal_of(row.player), journal.named(row.tune), {}, row.text});
        }
    }

    std::vector<std::int64_t> others_of(std::int64_t tune) const {
        std::vector<std::int64_t> others;
        Statement rows(
            database_,
            "SELECT m.id FROM tune m JOIN tune t ON coalesce(m.family_id, m.id) = coalesce(t.family_id, t.id)"
            " WHERE t.id = ?1 AND m.id <> ?1 ORDER BY m.id");
        rows.bind(tune);
        while (rows.step()) others.push_back(rows.number(0));
        return others;
    }

    const Database& database_;
    std::map<std::int64_t, Seal> seals_;
};

}  // namespace

namespace {

// Whether it makes one more table of what is worked out from the journal, where that is not there yet.
bool adds_to_kept(const Migration& step) noexcept {
    return step.sql.find("CREATE TABLE IF NOT EXISTS ") != std::string_view::npos;
}

}  // namespace

bool makes_journal(const Migration& step) noexcept {
    return step.sql.find("CREATE TABLE saying (") != std::string_view::npos;
}

void begin_journal(const Database& database, const std::function<void()>& step) {
    Old old;
    read_marks(database, old);
    read_players(database, old);
    read_lists(database, old);
    step();
    for (const Migration& later : migrations())
        if (adds_to_kept(later)) database.exec(std::string(later.sql));
    Begun(database).write(old);
    for (const people::Subject subject : kSubjects) rebuild(database, subject);
}

}  // namespace library
