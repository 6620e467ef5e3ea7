// A sum of one hash a row does not depend on the order of rows. Tested by journal_test.cc.
#include <xxhash.h>

#include <string>
#include <vector>

#include "base/failure.h"
#include "library/journal_rows.h"

namespace library {

namespace {

using people::Subject;

// Without the ids that only hold rows together.
std::vector<const char*> kept_rows_of(Subject subject) {
    switch (subject) {
        case Subject::marks:
            return {"SELECT 'tag', t.tune_id, g.folded, g.text FROM tune_tag t LEFT JOIN tag g ON g.id = t.tag_id",
                    "SELECT 'count', tune_id, times FROM tune_count",
                    "SELECT 'rhythm', tune_id, rhythm, said FROM tune_rhythm",
                    "SELECT 'key', tune_id, tonic, mode, said FROM tune_key",
                    "SELECT 'alias', folded, text, tune_id FROM tune_alias"};
        case Subject::verdicts:
            return {"SELECT 'verdict', one_id, other_id, is_same, said FROM verdict"};
        case Subject::players:
            return {"SELECT 'player', id, folded, name, instrument, low, high FROM player",
                    "SELECT 'event', id, player_id, tune_id, day, event, place FROM player_event",
                    "SELECT 'wish', player_id, tune_id FROM player_wish",
                    "SELECT 'exclusion', player_id, tune_id, reason FROM player_exclusion",
                    "SELECT 'class', folded, name FROM player_class",
                    "SELECT 'member', class, player_id FROM player_class_member"};
        case Subject::terms:
            return {"SELECT 'term', folded, name, text, text_before FROM syllabus"};
        case Subject::journal:
            break;
    }
    return {};
}

}  // namespace

std::int64_t sum_of_kept(const Database& database, Subject subject) {
    std::uint64_t sum = 0;
    std::string row;
    for (const char* sql : kept_rows_of(subject)) {
        Statement rows(database, sql);
        while (rows.step()) {
            row.clear();
            for (int column = 0; column < rows.columns(); ++column)
                (row += rows.is_null(column) ? '\1' : '\2').append(rows.text(column)) += '\0';
            sum += XXH3_64bits(row.data(), row.size());
        }
    }
    return static_cast<std::int64_t>(sum);
}

void store_sum(const Database& database, Subject subject) {
    Statement(database,
              "INSERT INTO kept_sum (subject, sum) VALUES (?1, ?2)"
              " ON CONFLICT (subject) DO UPDATE SET sum = excluded.sum")
        .bind(subject_token(subject), sum_of_kept(database, subject))
        .run();
    database.believe(static_cast<unsigned>(subject));
}

void require_sound(const Database& database, Subject subject) {
    if (database.believes(static_cast<unsigned>(subject))) return;
    Statement stored(database, "SELECT sum FROM kept_sum WHERE subject = ?1");
    const bool is_sound =
        stored.bind(subject_token(subject)).step() && stored.number(0) == sum_of_kept(database, subject);
    if (!is_sound)
        throw base::Failure("read", database.file(),
                            "what is kept of " + std::string(subject_token(subject)) +
                                " has changed by itself (a fault of the disk?); gamut library check tells more");
    database.believe(static_cast<unsigned>(subject));
}

}  // namespace library
