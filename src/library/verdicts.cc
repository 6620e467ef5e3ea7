// Tested by families_test.cc.
#include "library/verdicts.h"

#include <algorithm>

#include "base/invariant.h"
#include "library/existing_library.h"
#include "library/families.h"
#include "library/statement.h"

namespace library {

void say_same(const std::filesystem::path& file, tune::TuneId one, tune::TuneId other, bool is_same) {
    INVARIANT(one != other);
    const std::unique_ptr<Database> database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    Statement(*database,
              "INSERT INTO verdict (one_id, other_id, is_same, said)"
              " SELECT ?1, ?2, ?3, coalesce(max(said), 0) + 1 FROM verdict WHERE true"
              " ON CONFLICT (one_id, other_id) DO UPDATE SET is_same = excluded.is_same, said = excluded.said")
        .bind(std::min(one, other).value, std::max(one, other).value, is_same)
        .run();
    settle_families(*database);
    transaction.commit();
}

}  // namespace library
