// Tested by syllabi_test.cc.
#include "library/syllabi.h"

#include "library/existing_library.h"
#include "library/statement.h"

namespace library {

namespace {

std::optional<KeptSyllabus> find(const Database& database, const std::string& folded) {
    Statement row(database, "SELECT folded, name, text FROM syllabus WHERE folded = ?1");
    if (!row.bind(folded).step()) return std::nullopt;
    return KeptSyllabus{std::string(row.text(0)), std::string(row.text(1)), std::string(row.text(2))};
}

}  // namespace

std::vector<KeptSyllabus> kept_syllabi(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::read);
    std::vector<KeptSyllabus> kept;
    Statement rows(*database, "SELECT folded, name, text FROM syllabus ORDER BY folded");
    while (rows.step())
        kept.push_back({std::string(rows.text(0)), std::string(rows.text(1)), std::string(rows.text(2))});
    return kept;
}

std::optional<KeptSyllabus> kept_syllabus(const std::filesystem::path& file, const std::string& folded) {
    return find(*open_existing_library(file, Access::read), folded);
}

bool keep_syllabus(const std::filesystem::path& file, const KeptSyllabus& syllabus,
                   const std::optional<std::string>& instead_of) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    const std::optional<KeptSyllabus> now = find(*database, syllabus.folded);
    if ((now ? std::optional(now->text) : std::nullopt) != instead_of) return false;
    Statement(*database,
              "INSERT INTO syllabus (folded, name, text) VALUES (?1, ?2, ?3)"
              " ON CONFLICT (folded) DO UPDATE SET name = excluded.name, text = excluded.text, text_before = text")
        .bind(syllabus.folded, syllabus.name, syllabus.text)
        .run();
    transaction.commit();
    return true;
}

std::optional<KeptSyllabus> take_back_syllabus(const std::filesystem::path& file, const std::string& folded,
                                               const TakenBackText& as_kept) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    Statement both(*database, "SELECT text, text_before FROM syllabus WHERE folded = ?1 AND text_before IS NOT NULL");
    if (!both.bind(folded).step()) return std::nullopt;
    const std::string text = as_kept(std::string(both.text(0)), std::string(both.text(1)));
    Statement(*database, "UPDATE syllabus SET text = ?2, text_before = NULL WHERE folded = ?1")
        .bind(folded, text)
        .run();
    transaction.commit();
    return find(*database, folded);
}

void rewrite_syllabi(const std::filesystem::path& file,
                     const std::function<std::string(const std::string& text)>& rewritten) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    for (const char* column : {"text", "text_before"}) {
        std::vector<std::pair<std::string, std::string>> texts;
        const std::string name = column;
        Statement rows(*database, "SELECT folded, " + name + " FROM syllabus WHERE " + name + " IS NOT NULL");
        while (rows.step()) texts.emplace_back(rows.text(0), rows.text(1));
        for (const auto& [folded, text] : texts)
            if (const std::string now = rewritten(text); now != text)
                Statement(*database, "UPDATE syllabus SET " + name + " = ?2 WHERE folded = ?1").bind(folded, now).run();
    }
    transaction.commit();
}

bool forget_syllabus(const std::filesystem::path& file, const std::string& folded) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    const bool was_there = find(*database, folded).has_value();
    Statement(*database, "DELETE FROM syllabus WHERE folded = ?1").bind(folded).run();
    transaction.commit();
    return was_there;
}

}  // namespace library
