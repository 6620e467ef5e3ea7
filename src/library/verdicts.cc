// Tested by families_test.cc.
#include "library/verdicts.h"

#include <algorithm>

#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/families.h"
#include "library/journal_rows.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

std::vector<collection::Verdict> verdicts_of(const Database& database) {
    require_sound(database, people::Subject::verdicts);
    std::vector<collection::Verdict> verdicts;
    Statement rows(database, "SELECT one_id, other_id, is_same FROM verdict ORDER BY said");
    while (rows.step()) verdicts.push_back({{rows.number(0)}, {rows.number(1)}, rows.number(2) != 0});
    return verdicts;
}

std::vector<collection::Verdict> Library::verdicts() const { return verdicts_of(*database_); }

void say_same(const std::filesystem::path& file, tune::TuneId one, tune::TuneId other, bool is_same,
              std::optional<base::Date> day) {
    INVARIANT(one != other);
    const std::unique_ptr<Database> database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    require_sound(*database, people::Subject::verdicts);
    Journal journal(*database, day);
    journal.say(people::SameSaid{journal.named(one.value), journal.named(other.value), is_same});
    Statement(*database,
              "INSERT INTO verdict (one_id, other_id, is_same, said) VALUES (?1, ?2, ?3, ?4)"
              " ON CONFLICT (one_id, other_id) DO UPDATE SET is_same = excluded.is_same, said = excluded.said")
        .bind(std::min(one, other).value, std::max(one, other).value, is_same, journal.last_rank())
        .run();
    store_sum(*database, people::Subject::verdicts);
    settle_families(*database);
    transaction.commit();
}

}  // namespace library
