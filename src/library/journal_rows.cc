// Tested by journal_test.cc and rebuild_test.cc.
#include "library/journal_rows.h"

#include <sqlite3.h>

#include <array>
#include <tuple>
#include <unordered_set>
#include <utility>

#include "base/failure.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace library {

namespace {

using people::Subject;

[[noreturn]] void fail_journal_damaged(const Database& database, const std::string& what) {
    throw base::Failure("read", database.file(), "what people said is damaged: " + what);
}

std::string new_salt() {
    std::array<unsigned char, 16> bytes{};
    sqlite3_randomness(static_cast<int>(bytes.size()), bytes.data());
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string salt;
    for (const unsigned char byte : bytes) (salt += kDigits[byte >> 4]) += kDigits[byte & 15];
    return salt;
}

std::int64_t low_bits(const music::NoteSet& notes) { return static_cast<std::int64_t>(notes.low()); }
std::int64_t high_bits(const music::NoteSet& notes) { return static_cast<std::int64_t>(notes.high()); }

constexpr const char* kInsertSaying =
    "INSERT INTO saying (seal, before, clock, words_seal, is_from_elsewhere, kind, words)"
    " VALUES (?1, ?2, ?3, ?4, 0, ?5, ?6)";

void rebuild_marks(const Database& database, const people::Kept& kept) {
    database.exec(
        "DELETE FROM tune_tag; DELETE FROM tag; DELETE FROM tune_count; DELETE FROM tune_rhythm; DELETE FROM tune_key;"
        "DELETE FROM tune_alias");
    Statement tag(database, "INSERT INTO tag (folded, text) VALUES (?1, ?2)");
    for (const auto& [folded, text] : kept.tags) tag.bind(folded, text).run();
    Statement tagged(database, "INSERT INTO tune_tag (tune_id, tag_id) SELECT ?1, id FROM tag WHERE folded = ?2");
    for (const auto& [tune, folded] : kept.tunes_tagged) tagged.bind(tune, folded).run();
    Statement count(database, "INSERT INTO tune_count (tune_id, times) VALUES (?1, ?2)");
    for (const auto& [tune, times] : kept.counts) count.bind(tune, times).run();
    Statement rhythm(database, "INSERT INTO tune_rhythm (tune_id, rhythm, said) VALUES (?1, ?2, ?3)");
    for (const auto& [tune, said] : kept.rhythms) rhythm.bind(tune, said.rhythm, said.said).run();
    Statement key(database, "INSERT INTO tune_key (tune_id, tonic, mode, said) VALUES (?1, ?2, ?3, ?4)");
    for (const auto& [tune, said] : kept.keys) {
        const std::string tonic = music::to_string(said.key.tonic);
        key.bind(tune, tonic, music::mode_token(said.key.mode), said.said).run();
    }
    Statement alias(database, "INSERT INTO tune_alias (folded, text, tune_id) VALUES (?1, ?2, ?3)");
    for (const auto& [folded, said] : kept.aliases) alias.bind(folded, said.text, said.tune).run();
}

void rebuild_verdicts(const Database& database, const people::Kept& kept) {
    database.exec("DELETE FROM verdict");
    Statement row(database, "INSERT INTO verdict (one_id, other_id, is_same, said) VALUES (?1, ?2, ?3, ?4)");
    for (const auto& [tunes, verdict] : kept.verdicts)
        row.bind(tunes.first, tunes.second, verdict.is_same, verdict.said).run();
}

void rebuild_players(const Database& database, const people::Kept& kept) {
    database.exec(
        "DELETE FROM player_class_member; DELETE FROM player_class; DELETE FROM player_event; DELETE FROM player_wish;"
        "DELETE FROM player_exclusion; DELETE FROM player");
    Statement row(database,
                  "INSERT INTO player (id, folded, name, instrument, low, high) VALUES (?1, ?2, ?3, ?4, ?5, ?6)");
    for (const auto& [number, player] : kept.players) {
        const auto low = player.notes ? std::optional(low_bits(*player.notes)) : std::nullopt;
        const auto high = player.notes ? std::optional(high_bits(*player.notes)) : std::nullopt;
        row.bind(number, player.folded, player.name, player.instrument, low, high).run();
    }
    Statement event(database,
                    "INSERT INTO player_event (id, player_id, tune_id, day, event, place)"
                    " VALUES (?1, ?2, ?3, ?4, ?5, ?6)");
    for (const auto& [rank, happened] : kept.events) {
        const std::string day = base::to_string(happened.what.day);
        event.bind(rank, happened.player, happened.tune, day, tune::event_token(happened.what.event), happened.place)
            .run();
    }
    Statement wish(database, "INSERT INTO player_wish (player_id, tune_id) VALUES (?1, ?2)");
    for (const auto& [player, tune] : kept.wishes) wish.bind(player, tune).run();
    Statement exclusion(database, "INSERT INTO player_exclusion (player_id, tune_id, reason) VALUES (?1, ?2, ?3)");
    for (const auto& [of, reason] : kept.exclusions) exclusion.bind(of.first, of.second, reason).run();
    Statement one(database, "INSERT INTO player_class (folded, name) VALUES (?1, ?2)");
    Statement member(database, "INSERT INTO player_class_member (class, player_id) VALUES (?1, ?2)");
    for (const auto& [folded, kept_class] : kept.classes) {
        one.bind(folded, kept_class.name).run();
        for (const people::PlayerNumber player : kept_class.players) member.bind(folded, player).run();
    }
}

void rebuild_terms(const Database& database, const people::Kept& kept) {
    database.exec("DELETE FROM syllabus");
    Statement row(database, "INSERT INTO syllabus (folded, name, text, text_before) VALUES (?1, ?2, ?3, ?4)");
    for (const auto& [folded, term] : kept.terms) row.bind(folded, term.name, term.text, term.before).run();
}

}  // namespace

std::string_view subject_token(Subject subject) noexcept {
    switch (subject) {
        case Subject::marks:
            return "marks";
        case Subject::verdicts:
            return "verdicts";
        case Subject::players:
            return "players";
        case Subject::terms:
            return "terms";
        case Subject::journal:
            return "journal";
    }
    return "journal";
}

Journal::Journal(const Database& database, std::optional<base::Date> day)
    : database_(database),
      day_(day),
      insert_(database, kInsertSaying, true),
      update_head_(database, "UPDATE journal_head SET seal = ?1, sayings = ?2, clock = ?3 WHERE id = 1", true),
      name_(database,
            "SELECT s.melody_class, t.text FROM setting s LEFT JOIN title t ON t.setting_id = s.id AND t.place = 0"
            " WHERE s.own_tune_id = ?1 ORDER BY s.gone, s.id LIMIT 1",
            true) {
    Statement head(database, "SELECT seal, sayings, clock FROM journal_head WHERE id = 1");
    if (!head.step()) fail_journal_damaged(database, "the journal has no head");
    head_ = head.optional_text(0);
    sayings_ = head.number(1);
    clock_ = head.number(2);
    if (!head_) return;
    Statement last(database, "SELECT clock FROM saying WHERE seal = ?1");
    if (!last.bind(*head_).step() || last.number(0) > clock_)
        fail_journal_damaged(database, "the end of the journal is missing; gamut library check tells more");
}

people::Seal Journal::say(people::Words words) {
    const people::Saying saying{std::move(words), day_, first_};
    people::Link link = people::link_of(head_, ++clock_, people::write_saying(saying, new_salt()));
    insert_.bind(link.seal, link.before, link.clock, link.words_seal, people::kind_of(saying.words), *link.words).run();
    number_ = database_.last_id();
    ++sayings_;
    head_ = link.seal;
    if (!first_) first_ = link.seal;
    write_head();
    return link.seal;
}

void Journal::write_head() { update_head_.bind(head_, sayings_, clock_).run(); }

people::NamedTune Journal::named(std::int64_t own) {
    people::NamedTune tune{tune::TuneId{own}, std::nullopt, {}};
    const Reset reset(name_);
    if (name_.bind(own).step()) {
        if (!name_.is_null(0)) tune.melody_class = static_cast<std::uint64_t>(name_.number(0));
        tune.title = name_.text(1);
    }
    return tune;
}

people::NamedTunes Journal::named(const std::vector<std::int64_t>& own) {
    people::NamedTunes tunes;
    for (const std::int64_t id : own) tunes.push_back(named(id));
    return tunes;
}

void Journal::erase(const std::vector<people::Seal>& sayings) {
    Statement erase(database_, "UPDATE saying SET kind = NULL, words = NULL WHERE seal = ?1", true);
    for (const people::Seal& seal : sayings) erase.bind(seal).run();
    say(people::Erased{sayings});
}

TunesHere::TunesHere(const Database& database)
    : database_(database),
      same_(database,
            "SELECT 1 FROM setting s LEFT JOIN title t ON t.setting_id = s.id AND t.place = 0"
            " WHERE s.own_tune_id = ?1 AND (s.melody_class IS ?2 AND ?2 IS NOT NULL OR ?2 IS NULL AND t.folded = ?3)",
            true) {}

void TunesHere::look_around() {
    has_looked_ = true;
    Statement classes(database_,
                      "SELECT melody_class, min(own_tune_id) FROM setting WHERE melody_class IS NOT NULL GROUP BY 1");
    while (classes.step()) by_class_.emplace(static_cast<std::uint64_t>(classes.number(0)), classes.number(1));
    Statement titles(database_,
                     "SELECT t.folded, min(s.own_tune_id) FROM title t JOIN setting s ON s.id = t.setting_id"
                     " WHERE t.folded <> '' GROUP BY 1 HAVING count(DISTINCT s.tune_id) = 1");
    while (titles.step()) by_title_.emplace(titles.text(0), titles.number(1));
}

tune::TuneId TunesHere::operator()(const people::NamedTune& tune) {
    const std::string folded = tune::fold_title(tune.title);
    {
        const Reset reset(same_);
        if (same_.bind(tune.id.value, tune.melody_class, folded).step()) return tune.id;
    }
    if (!has_looked_) look_around();
    if (tune.melody_class)
        if (const auto found = by_class_.find(*tune.melody_class); found != by_class_.end()) return {found->second};
    const auto found = by_title_.find(folded);
    return {found == by_title_.end() ? 0 : found->second};
}

namespace {

template <typename IsWanted>
std::vector<people::Entry> entries_that(const Database& database, IsWanted is_wanted) {
    std::vector<people::Entry> entries;
    Statement rows(database,
                   "SELECT id, seal, is_from_elsewhere, kind, words, before, clock, words_seal FROM saying"
                   " ORDER BY clock, seal");
    std::int64_t rank = 0;
    std::unordered_set<std::string> seals;
    while (rows.step()) {
        ++rank;
        const auto require = [&](bool is_so) {
            if (!is_so)
                fail_journal_damaged(database, "entry " + std::to_string(rows.number(0)) +
                                                   " is not as it was sealed; gamut library check tells more");
        };
        const std::optional<std::string> before = rows.optional_text(5);
        require(rows.text(1) == people::seal_of(before, rows.number(6), rows.text(7)));
        require(!before || seals.contains(*before));
        seals.emplace(rows.text(1));
        require(rows.is_null(3) == rows.is_null(4));
        if (rows.is_null(3)) continue;  // erased
        require(rows.text(7) == people::seal_of_words(rows.text(4)));
        require(people::is_known_kind(rows.text(3)));
        if (!is_wanted(people::subject_of(rows.text(3)))) continue;
        people::Entry entry{rows.number(0), rank, std::string(rows.text(1)), rows.number(2) != 0, {}};
        try {
            entry.saying = people::read_saying(rows.text(4));
        } catch (const people::SayingFault& fault) {
            fail_journal_damaged(database, "entry " + std::to_string(entry.number) +
                                               " cannot be read: " + fault.what() + "; gamut library check tells more");
        }
        require(people::kind_of(entry.saying.words) == rows.text(3));
        entries.push_back(std::move(entry));
    }
    Statement head(database, "SELECT sayings, seal FROM journal_head");
    if (!head.step() || head.number(0) != rank || (!head.is_null(1) && !seals.contains(std::string(head.text(1)))))
        fail_journal_damaged(database, "some of it is missing; gamut library check tells more");
    if (misplaced_sayings(database) > 0)
        fail_journal_damaged(database,
                             "where some of it came from has changed by itself; gamut library check tells more");
    return entries;
}

}  // namespace

std::vector<people::Entry> entries_of(const Database& database, Subject subject) {
    return entries_that(database, [&](Subject of) { return of == subject || of == Subject::journal; });
}

std::vector<people::Entry> entries_of(const Database& database) {
    return entries_that(database, [](Subject) { return true; });
}

people::Kept fold_journal(const Database& database, Subject subject) {
    TunesHere here(database);
    return people::fold(entries_of(database, subject), [&](const people::NamedTune& tune) { return here(tune); });
}

std::vector<people::Link> links_of(const Database& database) {
    std::vector<people::Link> links;
    Statement rows(database, "SELECT seal, before, clock, words_seal, words FROM saying ORDER BY clock, seal");
    while (rows.step())
        links.push_back({std::string(rows.text(0)), rows.optional_text(1), rows.number(2), std::string(rows.text(3)),
                         rows.optional_text(4)});
    return links;
}

std::int64_t misplaced_sayings(const Database& database) {
    return database.number(
        "WITH RECURSIVE own (seal) AS (SELECT seal FROM journal_head WHERE seal IS NOT NULL UNION"
        " SELECT s.before FROM saying s JOIN own ON s.seal = own.seal WHERE s.before IS NOT NULL)"
        " SELECT count(*) FROM saying WHERE (seal IN (SELECT seal FROM own)) = is_from_elsewhere");
}

void clear_erased(const Database& database) {
    const auto fail = [&](const std::string& why) {
        throw base::Failure(
            "clear", database.file(),
            "what was to be forgotten is removed, and that is kept, but traces may be left in free room (" + why +
                "); gamut library compact clears them");
    };
    try {
        if (database.exec_unless_busy("VACUUM")) return;
    } catch (const base::Failure& failure) {
        fail(failure.what());
    }
    fail("another program is using it");
}

void mend_journal(const Database& database) {
    const std::vector<people::Link> links = links_of(database);
    database.exec(
        "INSERT INTO journal_head (id, sayings, clock) VALUES (1, 0, 0) ON CONFLICT (id) DO NOTHING;"
        "UPDATE journal_head SET sayings = (SELECT count(*) FROM saying),"
        " clock = (SELECT coalesce(max(clock), 0) FROM saying),"
        " seal = coalesce((SELECT s.seal FROM saying s WHERE s.seal = journal_head.seal),"
        " (SELECT seal FROM saying WHERE is_from_elsewhere = 0 ORDER BY clock DESC LIMIT 1))");
    if (!people::faults_of(links).empty()) return;
    try {
        for (const Subject subject : kSubjects) rebuild(database, subject);
    } catch (const base::Failure&) {
        return;  // what could be read of the tables stays
    }
}

void rebuild(const Database& database, Subject subject) {
    const people::Kept kept = fold_journal(database, subject);
    if (subject == Subject::marks) rebuild_marks(database, kept);
    if (subject == Subject::verdicts) rebuild_verdicts(database, kept);
    if (subject == Subject::players) rebuild_players(database, kept);
    if (subject == Subject::terms) rebuild_terms(database, kept);
    store_sum(database, subject);
}

}  // namespace library
