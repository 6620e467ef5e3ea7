// The index setting_present holds all of a kind, in the order of tunes. Tested by tunes_by_id_test.cc.
#include <algorithm>

#include "library/database.h"
#include "library/library.h"
#include "library/said_kinds.h"
#include "library/statement.h"

namespace library {

std::vector<collection::SettingKind> Library::setting_kinds() const {
    std::vector<collection::SettingKind> kinds;
    const collection::SaidKinds said = said_kinds_of(*database_);
    Statement rows(*database_, "SELECT id, rhythm, tonic, mode FROM setting WHERE gone = 0 ORDER BY tune_id, id");
    while (rows.step()) {
        collection::SettingKind& kind = kinds.emplace_back();
        kind.setting = {rows.number(0)};
        if (!rows.is_null(1)) kind.rhythm = rows.text(1);
        if (!rows.is_null(2)) kind.key = std::string(rows.text(2)) + " " + std::string(rows.text(3));
        if (const collection::SaidKind* words = said.of(kind.setting)) {
            if (words->rhythm) kind.rhythm = *words->rhythm;
            if (words->key) kind.key = music::to_string(*words->key);
        }
    }
    std::sort(kinds.begin(), kinds.end(),
              [](const collection::SettingKind& a, const collection::SettingKind& b) { return a.setting < b.setting; });
    return kinds;
}

std::vector<tune::SettingId> Library::scraps() const {
    std::vector<tune::SettingId> scraps;
    Statement rows(*database_, "SELECT id FROM setting WHERE scrap IS NOT NULL ORDER BY id");
    while (rows.step()) scraps.push_back({rows.number(0)});
    return scraps;
}

}  // namespace library
