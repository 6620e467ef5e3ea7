// Tested by tunes_titled_test.cc.
#include <algorithm>
#include <map>

#include "library/database.h"
#include "library/library.h"
#include "library/records.h"
#include "library/sheets.h"
#include "library/statement.h"
#include "tune/title.h"

namespace library {

namespace {

// Setting by tune: of several the one imported first.
using FirstOfTune = std::map<std::int64_t, std::int64_t>;

}  // namespace

std::vector<tune::TuneRecord> Library::tunes_titled(std::string_view title) const {
    const std::string folded = tune::fold_title(title);
    if (folded.empty()) return {};
    FirstOfTune exactly;
    FirstOfTune partly;
    Statement rows(*database_,
                   "SELECT s.tune_id, s.id, t.folded = ?1 FROM title t CROSS JOIN setting s ON s.id = t.setting_id"
                   " WHERE instr(t.folded, ?1) > 0 AND s.gone = 0 ORDER BY t.setting_id, t.place");
    rows.bind(folded);
    while (rows.step()) (rows.number(2) != 0 ? exactly : partly).emplace(rows.number(0), rows.number(1));
    std::vector<std::int64_t> settings;
    for (const auto& [tune, setting] : exactly.empty() ? partly : exactly) settings.push_back(setting);
    std::sort(settings.begin(), settings.end());
    return records_of(*database_, settings_sorted(*database_, settings, collection::Sort::title, std::nullopt));
}

std::vector<tune::TuneRecord> Library::settings_titled(std::string_view title) const {
    const std::string folded = tune::fold_title(title);
    if (folded.empty()) return {};
    std::vector<std::int64_t> exactly;
    std::vector<std::int64_t> partly;
    Statement rows(*database_,
                   "SELECT s.id, max(t.folded = ?1) FROM title t CROSS JOIN setting s ON s.id = t.setting_id"
                   " WHERE instr(t.folded, ?1) > 0 AND s.gone = 0 GROUP BY s.id ORDER BY s.own_tune_id");
    rows.bind(folded);
    while (rows.step()) (rows.number(1) != 0 ? exactly : partly).push_back(rows.number(0));
    return records_of(*database_, exactly.empty() ? partly : exactly);
}

}  // namespace library
