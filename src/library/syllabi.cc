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

std::optional<KeptSyllabus> take_back_syllabus(const std::filesystem::path& file, const std::string& folded) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    Statement before(*database, "SELECT 1 FROM syllabus WHERE folded = ?1 AND text_before IS NOT NULL");
    if (!before.bind(folded).step()) return std::nullopt;
    Statement(*database, "UPDATE syllabus SET text = text_before, text_before = NULL WHERE folded = ?1")
        .bind(folded)
        .run();
    transaction.commit();
    return find(*database, folded);
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
