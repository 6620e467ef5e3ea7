// Tested by tunes_that_test.cc.
#include <algorithm>

#include "collection/sieve.h"
#include "collection/sort_order.h"
#include "library/database.h"
#include "library/library.h"
#include "library/records.h"
#include "library/sheets.h"

namespace library {

namespace {

// The rows of `sifting` as they are to be shown: settings of `sheet`.
std::vector<std::int64_t> settings_in_order(const Database& database, const collection::Sheet& sheet,
                                            collection::Sifting& sifting, const collection::Selection& selection) {
    std::vector<collection::Sifted>& passed = sifting.passed;
    std::vector<std::int64_t> settings;
    settings.reserve(passed.size());
    if (selection.sort == collection::Sort::heard && selection.goes) {
        std::sort(passed.begin(), passed.end(), [](const auto& a, const auto& b) { return a.rank < b.rank; });
        const auto most =
            static_cast<std::size_t>(std::max<std::int64_t>(selection.limit.value_or(sifting.tally.matched), 0));
        passed.resize(std::min(passed.size(), most));
        for (const collection::Sifted& row : passed) settings.push_back(sheet.settings[row.row].value);
        return settings;
    }
    for (const collection::Sifted& row : passed) settings.push_back(sheet.settings[row.row].value);
    std::sort(settings.begin(), settings.end());
    return settings_sorted(database, settings, selection.sort, selection.limit,
                           selection.notes_at_hand().value_or(music::NoteSet()));
}

}  // namespace

collection::Answer Library::select_tunes(const collection::Selection& selection) const {
    const collection::Sheet sheet = sheet_for(*database_, selection);
    collection::Sifting sifting = collection::sift(sheet, selection);
    const std::vector<std::int64_t> settings = settings_in_order(*database_, sheet, sifting, selection);
    return {std::move(sifting.tally), records_of(*database_, settings)};
}

collection::NotesAnswer Library::select_notes(const collection::Selection& selection) const {
    const collection::Sheet sheet = sheet_for(*database_, selection);
    collection::Sifting sifting = collection::sift(sheet, selection);
    collection::NotesAnswer answer{std::move(sifting.tally), {}};
    answer.rows.reserve(sifting.passed.size());
    for (const collection::Sifted& row : sifting.passed)
        answer.rows.push_back({row.tune, sheet.settings[row.row], row.needed, row.has_other_notes});
    return answer;
}

}  // namespace library
