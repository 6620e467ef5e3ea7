// Tested by tunes_that_test.cc.
#include <algorithm>

#include "library/database.h"
#include "library/library.h"
#include "library/records.h"
#include "library/sieve.h"
#include "library/sort_order.h"

namespace library {

Answer Library::select_tunes(const Selection& selection) const {
    Sifting sifting = sift(*database_, selection);
    std::vector<std::int64_t> settings;
    settings.reserve(sifting.passed.size());
    if (selection.sort == Sort::heard && selection.goes) {
        std::sort(sifting.passed.begin(), sifting.passed.end(),
                  [](const Sifted& a, const Sifted& b) { return a.rank < b.rank; });
        const auto most =
            static_cast<std::size_t>(std::max<std::int64_t>(selection.limit.value_or(sifting.tally.matched), 0));
        sifting.passed.resize(std::min(sifting.passed.size(), most));
        for (const Sifted& row : sifting.passed) settings.push_back(row.setting);
        return {std::move(sifting.tally), records_of(*database_, settings)};
    }
    for (const Sifted& row : sifting.passed) settings.push_back(row.setting);
    std::sort(settings.begin(), settings.end());
    return {std::move(sifting.tally),
            records_of(*database_, in_order(*database_, settings, selection.sort, selection.limit))};
}

NotesAnswer Library::select_notes(const Selection& selection) const {
    Sifting sifting = sift(*database_, selection);
    NotesAnswer answer{std::move(sifting.tally), {}};
    answer.rows.reserve(sifting.passed.size());
    for (const Sifted& row : sifting.passed)
        answer.rows.push_back({{row.tune}, {row.setting}, row.needed, row.has_other_notes});
    return answer;
}

}  // namespace library
