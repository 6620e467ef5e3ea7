// Tested by oddities_test.cc and families_test.cc.
#include "library/database.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

void Library::visit_outlines(const std::function<void(const StoredOutline&)>& visit) const {
    Statement rows(*database_,
                   "SELECT o.setting_id, s.tune_id, s.own_tune_id, o.melody FROM outline o JOIN setting s ON s.id = o.setting_id"
                   " WHERE s.gone = 0 ORDER BY o.setting_id");
    while (rows.step()) visit({{rows.number(0)}, {rows.number(1)}, {rows.number(2)}, rows.bytes(3)});
}

std::vector<Verdict> Library::verdicts_about(tune::TuneId id) const {
    std::vector<Verdict> verdicts;
    Statement rows(*database_,
                   "WITH member (id) AS (SELECT own_tune_id FROM setting WHERE tune_id = ?1)"
                   " SELECT one_id, other_id, is_same FROM verdict"
                   " WHERE one_id IN member OR other_id IN member ORDER BY said");
    rows.bind(id.value);
    while (rows.step()) verdicts.push_back({{rows.number(0)}, {rows.number(1)}, rows.number(2) != 0});
    return verdicts;
}

}  // namespace library
