// Tested by marks_test.cc.
#include "library/database.h"
#include "library/journal_rows.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

std::vector<collection::TuneMark> Library::marks() const {
    require_sound(*database_, people::Subject::marks);
    std::vector<collection::TuneMark> marks;
    // A row for each tag and one for each count; those of a tune stand together, its count first.
    Statement rows(*database_,
                   "SELECT coalesce(u.family_id, u.id) AS tune, CASE count(*) WHEN 1 THEN max(c.times) ELSE "
                   "CAST(min(total(c.times), 9e18) AS INTEGER) END, NULL AS folded"
                   " FROM tune_count c JOIN tune u ON u.id = c.tune_id GROUP BY 1 UNION"
                   " SELECT coalesce(u.family_id, u.id), NULL, g.folded FROM tune_tag t JOIN tag g ON g.id = t.tag_id"
                   " JOIN tune u ON u.id = t.tune_id ORDER BY tune, folded");
    while (rows.step()) {
        const tune::TuneId id{rows.number(0)};
        if (marks.empty() || marks.back().id != id) marks.push_back({id, std::nullopt, {}});
        if (rows.is_null(2))
            marks.back().count = rows.number(1);
        else
            marks.back().tags.emplace_back(rows.text(2));
    }
    return marks;
}

std::vector<collection::Alias> Library::aliases() const {
    require_sound(*database_, people::Subject::marks);
    std::vector<collection::Alias> aliases;
    Statement rows(
        *database_,
        "SELECT a.folded, a.text, coalesce(u.family_id, u.id) FROM tune_alias a JOIN tune u ON u.id = a.tune_id"
        " ORDER BY a.folded");
    while (rows.step())
        aliases.push_back({std::string(rows.text(0)), std::string(rows.text(1)), tune::TuneId{rows.number(2)}});
    return aliases;
}

}  // namespace library
