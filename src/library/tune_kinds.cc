// The index setting_present holds all of it, in this order. Tested by tunes_by_id_test.cc.
#include "library/database.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

std::vector<TuneKind> Library::tune_kinds() const {
    std::vector<TuneKind> kinds;
    Statement rows(*database_, "SELECT tune_id, rhythm, tonic, mode FROM setting WHERE gone = 0 ORDER BY tune_id, id");
    while (rows.step()) {
        const tune::TuneId id{rows.number(0)};
        if (!kinds.empty() && kinds.back().id == id) continue;
        TuneKind& kind = kinds.emplace_back();
        kind.id = id;
        if (!rows.is_null(1)) kind.rhythm = rows.text(1);
        if (!rows.is_null(2)) kind.key = std::string(rows.text(2)) + " " + std::string(rows.text(3));
    }
    return kinds;
}

}  // namespace library
