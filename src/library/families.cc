// Tested by families_test.cc.
#include "library/families.h"

#include "collection/families.h"
#include "library/statement.h"

namespace library {

void settle_families(const Database& database) {
    struct Row {
        std::int64_t setting, tune;
    };
    std::vector<collection::LoneTune> tunes;
    std::vector<Row> rows;
    {
        Statement settings(database, "SELECT own_tune_id, id, tune_id, melody_class FROM setting ORDER BY own_tune_id");
        while (settings.step()) {
            tunes.push_back(
                {settings.number(0), settings.is_null(3) ? std::nullopt : std::optional(settings.number(3))});
            rows.push_back({settings.number(1), settings.number(2)});
        }
    }
    const std::vector<std::int64_t> heads = collection::heads_of(tunes, verdicts_of(database));
    Statement move_setting(database, "UPDATE setting SET tune_id = ?2 WHERE id = ?1", true);
    Statement move_tune(database, "UPDATE tune SET family_id = ?2 WHERE id = ?1", true);
    for (std::size_t at = 0; at < rows.size(); ++at) {
        if (rows[at].tune == heads[at]) continue;
        move_setting.bind(rows[at].setting, heads[at]).run();
        move_tune.bind(tunes[at].id, heads[at] == tunes[at].id ? std::nullopt : std::optional(heads[at])).run();
    }
}

}  // namespace library
