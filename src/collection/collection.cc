// Tested by both_test.cc.
#include "collection/collection.h"

#include <utility>

namespace collection {

std::optional<tune::TuneRecord> Collection::tune_by_id(tune::TuneId id) const {
    std::vector<tune::TuneRecord> found = tunes_by_id({&id, 1});
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

}  // namespace collection
