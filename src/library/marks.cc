// Tested by marks_test.cc.
#include "library/marks.h"

#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/statement.h"

namespace library {

class Marks::Change {
public:
    explicit Change(const std::filesystem::path& file)
        : database_(open_existing_library(file, Access::write)),
          transaction_(*database_),
          name_tag_(*database_, "INSERT INTO tag (folded, text) VALUES (?1, ?2) ON CONFLICT (folded) DO NOTHING"),
          give_tag_(*database_,
                    "INSERT INTO tune_tag (tune_id, tag_id) SELECT ?1, id FROM tag WHERE folded = ?2"
                    " ON CONFLICT (tune_id, tag_id) DO NOTHING"),
          take_tag_(*database_,
                    "DELETE FROM tune_tag WHERE (tune_id = ?1 OR tune_id IN (SELECT id FROM tune WHERE family_id = ?1))"
                    " AND tag_id = (SELECT id FROM tag WHERE folded = ?2)"),
          forget_tag_(*database_,
                      "DELETE FROM tag WHERE folded = ?1 AND NOT EXISTS"
                      " (SELECT 1 FROM tune_tag WHERE tag_id = tag.id)"),
          set_count_(*database_,
                     "INSERT INTO tune_count (tune_id, times) VALUES (?1, ?2)"
                     " ON CONFLICT (tune_id) DO UPDATE SET times = excluded.times"),
          forget_count_(
              *database_,
              "DELETE FROM tune_count WHERE tune_id = ?1 OR tune_id IN (SELECT id FROM tune WHERE family_id = ?1)") {}

    void add_tag(std::int64_t tune, const tune::Tag& tag) {
        name_tag_.bind(tag.folded, tag.text).run();
        give_tag_.bind(tune, tag.folded).run();
    }
    void remove_tag(std::int64_t tune, const tune::Tag& tag) {
        take_tag_.bind(tune, tag.folded).run();
        forget_tag_.bind(tag.folded).run();
    }
    void set_count(std::int64_t tune, std::int64_t count) {
        forget_count(tune);  // one count for the family from now on
        set_count_.bind(tune, count).run();
    }
    void forget_count(std::int64_t tune) { forget_count_.bind(tune).run(); }
    void set_rhythm(std::int64_t tune, const std::optional<std::string>& rhythm) {
        forget("tune_rhythm", tune);
        if (!rhythm) return;
        Statement(*database_, "INSERT INTO tune_rhythm (tune_id, rhythm, said) VALUES (?1, ?2, ?3)")
            .bind(tune, *rhythm, next_said())
            .run();
    }
    void set_key(std::int64_t own, const std::optional<music::Key>& key) {
        forget("tune_key", own);
        if (!key) return;
        const std::string tonic = music::to_string(key->tonic);
        Statement(*database_, "INSERT INTO tune_key (tune_id, tonic, mode, said) VALUES (?1, ?2, ?3, ?4)")
            .bind(own, tonic, music::mode_token(key->mode), next_said())
            .run();
    }
    void commit() { transaction_.commit(); }

private:
    // What was said of any tune of the family that this one belongs to.
    void forget(const std::string& table, std::int64_t tune) {
        Statement(*database_, "DELETE FROM " + table +
                                  " WHERE tune_id IN (SELECT m.id FROM tune m JOIN tune t"
                                  " ON coalesce(m.family_id, m.id) = coalesce(t.family_id, t.id) WHERE t.id = ?1)")
            .bind(tune)
            .run();
    }
    std::int64_t next_said() const {
        return 1 + database_->number(
                       "SELECT max(said) FROM (SELECT said FROM tune_rhythm UNION ALL"
                       " SELECT said FROM tune_key)");
    }

    std::unique_ptr<Database> database_;  // before all that uses it
    Transaction transaction_;
    Statement name_tag_, give_tag_, take_tag_, forget_tag_, set_count_, forget_count_;
};

Marks::Marks(std::unique_ptr<Change> change) : change_(std::move(change)) {}
Marks::Marks(Marks&&) noexcept = default;
Marks::~Marks() = default;

Marks Marks::change(const std::filesystem::path& file) { return Marks(std::make_unique<Change>(file)); }

void Marks::add_tag(tune::TuneId id, const tune::Tag& tag) { change_->add_tag(id.value, tag); }

void Marks::remove_tag(tune::TuneId id, const tune::Tag& tag) { change_->remove_tag(id.value, tag); }

void Marks::set_count(tune::TuneId id, std::optional<std::int64_t> count) {
    INVARIANT(!count || *count >= 0);
    if (count)
        change_->set_count(id.value, *count);
    else
        change_->forget_count(id.value);
}

void Marks::set_rhythm(tune::TuneId id, const std::optional<std::string>& rhythm) {
    INVARIANT(!rhythm || !rhythm->empty());
    change_->set_rhythm(id.value, rhythm);
}

void Marks::set_key(tune::TuneId own, const std::optional<music::Key>& key) { change_->set_key(own.value, key); }

void Marks::commit() { change_->commit(); }

}  // namespace library
