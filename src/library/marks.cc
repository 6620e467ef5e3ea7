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
    void commit() { transaction_.commit(); }

private:
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

void Marks::commit() { change_->commit(); }

}  // namespace library
