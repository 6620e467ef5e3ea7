// All rows of the tables that are worked out from the journal, as text, for comparing.
#pragma once

#include <filesystem>
#include <string>

#include "library/database.h"
#include "library/statement.h"

namespace support {

inline std::string kept_tables(const std::filesystem::path& file) {
    const library::Database database(file, library::Access::read);
    std::string text;
    for (const char* sql :
         {"SELECT 'tag', t.tune_id, g.folded, g.text FROM tune_tag t JOIN tag g ON g.id = t.tag_id ORDER BY 2, 3",
          "SELECT 'word', folded, text FROM tag ORDER BY 2", "SELECT 'count', * FROM tune_count ORDER BY 2",
          "SELECT 'rhythm', * FROM tune_rhythm ORDER BY 2", "SELECT 'key', * FROM tune_key ORDER BY 2",
          "SELECT 'alias', * FROM tune_alias ORDER BY 2", "SELECT 'verdict', * FROM verdict ORDER BY 2, 3",
          "SELECT 'player', * FROM player ORDER BY 2", "SELECT 'event', * FROM player_event ORDER BY 2",
          "SELECT 'wish', * FROM player_wish ORDER BY 2, 3",
          "SELECT 'exclusion', * FROM player_exclusion ORDER BY 2, 3", "SELECT 'class', * FROM player_class ORDER BY 2",
          "SELECT 'member', * FROM player_class_member ORDER BY 2, 3",
          "SELECT 'term', folded, name, text, text_before FROM syllabus ORDER BY 2",
          "SELECT 'sum', * FROM kept_sum ORDER BY 2", "SELECT 'tune', id, family_id FROM tune ORDER BY 2"}) {
        library::Statement rows(database, sql);
        while (rows.step()) {
            for (int column = 0; column < rows.columns(); ++column)
                (text += column == 0 ? "" : "|") +=
                    rows.is_null(column) ? std::string("-") : std::string(rows.text(column));
            text += '\n';
        }
    }
    return text;
}

}  // namespace support
