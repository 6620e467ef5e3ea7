// Tested by oddities_test.cc and families_test.cc.
#include "library/database.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

void Library::visit_outlines(const std::function<void(const collection::StoredOutline&)>& visit) const {
    Statement rows(
        *database_,
        "SELECT o.setting_id, s.tune_id, s.own_tune_id, o.melody FROM outline o JOIN setting s ON s.id = o.setting_id"
        " WHERE s.gone = 0 ORDER BY o.setting_id");
    while (rows.step()) visit({{rows.number(0)}, {rows.number(1)}, {rows.number(2)}, rows.bytes(3)});
}

std::optional<tune::Outline> Library::outline_of(tune::SettingId setting) const {
    Statement row(*database_, "SELECT melody FROM outline WHERE setting_id = ?1");
    if (!row.bind(setting.value).step()) return std::nullopt;
    return tune::decode_outline(row.bytes(0));
}

}  // namespace library
