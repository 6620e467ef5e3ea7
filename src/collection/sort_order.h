// Settings in the order a listing shows them.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "collection/selection.h"
#include "collection/sheet.h"

namespace collection {

// The first `limit` rows of a sheet that has columns_of(sort), in the order of `sort`, which is total. Sort::heard is
// the sieve's to know: Sifted::rank. `have`: of which Sort::missing counts what is lacking.
std::vector<std::size_t> in_order(const Sheet& sheet, Sort sort, std::optional<std::int64_t> limit,
                                  const music::NoteSet& have = {});

}  // namespace collection
