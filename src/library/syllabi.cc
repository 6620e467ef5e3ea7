// Each change is said in the journal and done in the table. Tested by syllabi_test.cc; rebuild_test.cc holds the two
// together.
#include "library/syllabi.h"

#include "base/failure.h"
#include "library/existing_library.h"
#include "library/journal_rows.h"
#include "library/statement.h"
#include "people/last_go.h"

namespace library {

namespace {

using people::Subject;

std::optional<KeptSyllabus> find_term(const Database& database, const std::string& folded) {
    Statement row(database, "SELECT folded, name, text FROM syllabus WHERE folded = ?1");
    if (!row.bind(folded).step()) return std::nullopt;
    return KeptSyllabus{std::string(row.text(0)), std::string(row.text(1)), std::string(row.text(2))};
}

std::unique_ptr<Database> open_sound(const std::filesystem::path& file) {
    auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");  // the sum and the rows of one moment
    require_sound(*database, Subject::terms);
    return database;
}

struct Texts {
    std::string folded, name, text;
    std::optional<std::string> before;
};

std::vector<std::string> rewrite_texts(const Database& database, Journal& journal,
                                       const std::function<std::string(const std::string& text)>& rewritten) {
    std::vector<std::string> names;
    std::vector<Texts> terms;
    {
        Statement rows(database, "SELECT folded, name, text, text_before FROM syllabus ORDER BY folded");
        while (rows.step())
            terms.push_back({std::string(rows.text(0)), std::string(rows.text(1)), std::string(rows.text(2)),
                             rows.optional_text(3)});
    }
    for (const Texts& term : terms) {
        const std::string text = rewritten(term.text);
        const auto before = term.before ? std::optional(rewritten(*term.before)) : std::nullopt;
        if (text == term.text && before == term.before) continue;
        if (before) journal.say(people::TermSaid{term.name, term.folded, *before, true});
        journal.say(people::TermSaid{term.name, term.folded, text, !before});
        Statement(database, "UPDATE syllabus SET text = ?2, text_before = ?3 WHERE folded = ?1")
            .bind(term.folded, text, before)
            .run();
        names.push_back(term.name);
    }
    return names;
}

// A change of terms: said and done in one transaction.
struct TermChange {
    TermChange(const std::filesystem::path& file, std::optional<base::Date> day)
        : database(open_existing_library(file, Access::write)), transaction(*database), journal(sound(), day) {}

    const Database& sound() const {
        require_sound(*database, Subject::terms);
        return *database;
    }
    void commit() {
        store_sum(*database, Subject::terms);
        transaction.commit();
    }

    std::unique_ptr<Database> database;  // before what uses it
    Transaction transaction;
    Journal journal;
};

// The saying by which a term is as it is. There is one, as what is kept was said.
people::Seal last_said_of(const Database& database, const std::string& folded) {
    const std::vector<people::Entry> entries = entries_of(database, Subject::terms);
    const auto last = people::last_go(entries, [&](const people::Words& words) {
        const auto* term = std::get_if<people::TermSaid>(&words);
        return term != nullptr && term->folded == folded;
    });
    if (last.empty())
        throw base::Failure("read", database.file(),
                            "what was said of a term is missing; gamut library check tells more");
    return last.back()->seal;
}

}  // namespace

std::vector<KeptSyllabus> kept_syllabi(const std::filesystem::path& file) {
    const auto database = open_sound(file);
    std::vector<KeptSyllabus> kept;
    Statement rows(*database, "SELECT folded, name, text FROM syllabus ORDER BY folded");
    while (rows.step())
        kept.push_back({std::string(rows.text(0)), std::string(rows.text(1)), std::string(rows.text(2))});
    return kept;
}

std::optional<KeptSyllabus> kept_syllabus(const std::filesystem::path& file, const std::string& folded) {
    return find_term(*open_sound(file), folded);
}

bool keep_syllabus(const std::filesystem::path& file, const KeptSyllabus& syllabus,
                   const std::optional<std::string>& instead_of, std::optional<base::Date> day) {
    TermChange change(file, day);
    const std::optional<KeptSyllabus> now = find_term(*change.database, syllabus.folded);
    if ((now ? std::optional(now->text) : std::nullopt) != instead_of) return false;
    change.journal.say(people::TermSaid{syllabus.name, syllabus.folded, syllabus.text, false});
    Statement(*change.database,
              "INSERT INTO syllabus (folded, name, text) VALUES (?1, ?2, ?3)"
              " ON CONFLICT (folded) DO UPDATE SET name = excluded.name, text = excluded.text, text_before = text")
        .bind(syllabus.folded, syllabus.name, syllabus.text)
        .run();
    change.commit();
    return true;
}

std::optional<KeptSyllabus> take_back_syllabus(const std::filesystem::path& file, const std::string& folded,
                                               const TakenBackText& as_kept, std::optional<base::Date> day) {
    TermChange change(file, day);
    Statement both(*change.database,
                   "SELECT text, text_before, name FROM syllabus WHERE folded = ?1 AND text_before IS NOT NULL");
    if (!both.bind(folded).step()) return std::nullopt;
    const std::string text = as_kept(std::string(both.text(0)), std::string(both.text(1)));
    const std::string name(both.text(2));
    change.journal.say(people::TakenBack{{last_said_of(*change.database, folded)}});
    change.journal.say(people::TermSaid{name, folded, text, true});
    Statement(*change.database, "UPDATE syllabus SET text = ?2, text_before = NULL WHERE folded = ?1")
        .bind(folded, text)
        .run();
    both.reset();
    std::optional<KeptSyllabus> kept = find_term(*change.database, folded);
    change.commit();  // last: what fails after it would deny what is kept
    return kept;
}

std::vector<std::string> rewrite_terms(const Database& database, Journal& journal,
                                       const std::function<std::string(const std::string& text)>& rewritten) {
    require_sound(database, Subject::terms);
    std::vector<std::string> names = rewrite_texts(database, journal, rewritten);
    store_sum(database, Subject::terms);
    return names;
}

void forget_in_terms(const Database& database, Journal& journal,
                     const std::function<std::string(const std::string& text)>& without) {
    require_sound(database, Subject::terms);
    std::vector<people::Seal> seals;
    for (const people::Entry& entry : entries_of(database, Subject::terms))
        if (const auto* term = std::get_if<people::TermSaid>(&entry.saying.words);
            term != nullptr && without(term->text) != term->text)
            seals.push_back(entry.seal);
    if (!seals.empty()) journal.erase(seals);
    rewrite_texts(database, journal, without);
    store_sum(database, Subject::terms);
}

bool forget_syllabus(const std::filesystem::path& file, const std::string& folded, std::optional<base::Date> day) {
    TermChange change(file, day);
    const bool was_there = find_term(*change.database, folded).has_value();
    if (was_there) change.journal.say(people::TermGone{folded});
    Statement(*change.database, "DELETE FROM syllabus WHERE folded = ?1").bind(folded).run();
    change.commit();
    return was_there;
}

}  // namespace library
