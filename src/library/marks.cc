// Each change is said in the journal and done in the tables. Tested by marks_test.cc; rebuild_test.cc holds the two
// together.
#include "library/marks.h"

#include <vector>

#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/journal_rows.h"
#include "library/statement.h"
#include "tune/title.h"

namespace library {

namespace {

using people::NamedTunes;
using people::Subject;

// The tunes of a family, by any of them.
constexpr std::string_view kFamily =
    "(SELECT m.id FROM tune m JOIN tune t ON coalesce(m.family_id, m.id) = coalesce(t.family_id, t.id)"
    " WHERE t.id = ?1)";

}  // namespace

class Marks::Change {
public:
    Change(const std::filesystem::path& file, std::optional<base::Date> day)
        : database_(open_existing_library(file, Access::write)),
          transaction_(*database_),
          journal_(sound(*database_), day) {}

    void add_tag(std::int64_t tune, const tune::Tag& tag) {
        Statement(*database_, "INSERT INTO tag (folded, text) VALUES (?1, ?2) ON CONFLICT (folded) DO NOTHING")
            .bind(tag.folded, tag.text)
            .run();
        Statement(*database_,
                  "INSERT INTO tune_tag (tune_id, tag_id) SELECT ?1, id FROM tag WHERE folded = ?2"
                  " ON CONFLICT (tune_id, tag_id) DO NOTHING")
            .bind(tune, tag.folded)
            .run();
        if (database_->changes() > 0) journal_.say(people::TagGiven{journal_.named(tune), tag.text});
    }

    void remove_tag(std::int64_t tune, const tune::Tag& tag) {
        std::vector<std::int64_t> tagged;
        {
            Statement rows(*database_,
                           "DELETE FROM tune_tag WHERE tag_id = (SELECT id FROM tag WHERE folded = ?2)"
                           " AND tune_id IN " +
                               std::string(kFamily) + " RETURNING tune_id");
            rows.bind(tune, tag.folded);
            while (rows.step()) tagged.push_back(rows.number(0));
        }
        if (tagged.empty()) return;
        Statement(*database_,
                  "DELETE FROM tag WHERE folded = ?1 AND NOT EXISTS"
                  " (SELECT 1 FROM tune_tag WHERE tag_id = tag.id)")
            .bind(tag.folded)
            .run();
        journal_.say(people::TagTaken{journal_.named(tune), others(tagged, tune), tag.folded});
    }

    void set_count(std::int64_t tune, const std::optional<std::int64_t>& times) {
        const std::vector<std::int64_t> before = forget("tune_count", tune);
        if (!times && before.empty()) return;
        journal_.say(people::CountSaid{journal_.named(tune), others(before, tune), times});
        if (times)
            Statement(*database_, "INSERT INTO tune_count (tune_id, times) VALUES (?1, ?2)").bind(tune, *times).run();
    }

    void set_rhythm(std::int64_t tune, const std::optional<std::string>& rhythm) {
        const std::vector<std::int64_t> before = forget("tune_rhythm", tune);
        if (!rhythm && before.empty()) return;
        journal_.say(people::RhythmSaid{journal_.named(tune), others(before, tune), rhythm});
        if (rhythm)
            Statement(*database_, "INSERT INTO tune_rhythm (tune_id, rhythm, said) VALUES (?1, ?2, ?3)")
                .bind(tune, *rhythm, journal_.last_rank())
                .run();
    }

    void set_key(std::int64_t own, const std::optional<music::Key>& key) {
        const std::vector<std::int64_t> before = forget("tune_key", own);
        if (!key && before.empty()) return;
        journal_.say(people::KeySaid{journal_.named(own), others(before, own), key});
        if (!key) return;
        const std::string tonic = music::to_string(key->tonic);
        Statement(*database_, "INSERT INTO tune_key (tune_id, tonic, mode, said) VALUES (?1, ?2, ?3, ?4)")
            .bind(own, tonic, music::mode_token(key->mode), journal_.last_rank())
            .run();
    }

    void set_alias(std::int64_t tune, const std::string& alias) {
        const std::string folded = tune::fold_title(alias);
        Statement before(*database_, "SELECT 1 FROM tune_alias WHERE folded = ?1 AND text = ?2 AND tune_id = ?3");
        if (before.bind(folded, alias, tune).step()) return;
        journal_.say(people::AliasSaid{journal_.named(tune), alias});
        Statement(*database_,
                  "INSERT INTO tune_alias (folded, text, tune_id) VALUES (?1, ?2, ?3)"
                  " ON CONFLICT (folded) DO UPDATE SET text = excluded.text, tune_id = excluded.tune_id")
            .bind(folded, alias, tune)
            .run();
    }

    void remove_alias(const std::string& alias) {
        const std::string folded = tune::fold_title(alias);
        Statement(*database_, "DELETE FROM tune_alias WHERE folded = ?1").bind(folded).run();
        if (database_->changes() > 0) journal_.say(people::AliasGone{folded});
    }

    void commit() {
        store_sum(*database_, Subject::marks);
        transaction_.commit();
    }

private:
    // The tunes of its family of which something was said in this table; it is so no longer.
    std::vector<std::int64_t> forget(const std::string& table, std::int64_t tune) {
        std::vector<std::int64_t> before;
        Statement rows(*database_,
                       "DELETE FROM " + table + " WHERE tune_id IN " + std::string(kFamily) + " RETURNING tune_id");
        rows.bind(tune);
        while (rows.step()) before.push_back(rows.number(0));
        return before;
    }

    NamedTunes others(std::vector<std::int64_t> tunes, std::int64_t tune) {
        std::erase(tunes, tune);
        return journal_.named(tunes);
    }

    static const Database& sound(const Database& database) {
        require_sound(database, Subject::marks);
        return database;
    }

    std::unique_ptr<Database> database_;  // before all that uses it
    Transaction transaction_;
    Journal journal_;
};

Marks::Marks(std::unique_ptr<Change> change) : change_(std::move(change)) {}
Marks::Marks(Marks&&) noexcept = default;
Marks::~Marks() = default;

Marks Marks::change(const std::filesystem::path& file, std::optional<base::Date> day) {
    return Marks(std::make_unique<Change>(file, day));
}

void Marks::add_tag(tune::TuneId id, const tune::Tag& tag) { change_->add_tag(id.value, tag); }

void Marks::remove_tag(tune::TuneId id, const tune::Tag& tag) { change_->remove_tag(id.value, tag); }

void Marks::set_count(tune::TuneId id, std::optional<std::int64_t> count) {
    INVARIANT(!count || *count >= 0);
    change_->set_count(id.value, count);
}

void Marks::set_rhythm(tune::TuneId id, const std::optional<std::string>& rhythm) {
    INVARIANT(!rhythm || !rhythm->empty());
    change_->set_rhythm(id.value, rhythm);
}

void Marks::set_key(tune::TuneId own, const std::optional<music::Key>& key) { change_->set_key(own.value, key); }

void Marks::set_alias(tune::TuneId id, const std::string& alias) {
    INVARIANT(!tune::fold_title(alias).empty());
    change_->set_alias(id.value, alias);
}

void Marks::remove_alias(const std::string& alias) { change_->remove_alias(alias); }

void Marks::commit() { change_->commit(); }

}  // namespace library
