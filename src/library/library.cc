// Tested by library_test.cc; the questions beside their files.
#include "library/library.h"

#include "base/failure.h"
#include "library/database.h"
#include "library/migrate.h"

namespace library {

Library::Library(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Library::Library(Library&&) noexcept = default;
Library& Library::operator=(Library&&) noexcept = default;
Library::~Library() = default;

Library Library::open_existing(const std::filesystem::path& file) {
    std::error_code error;
    const bool is_there = std::filesystem::exists(file, error);
    if (error) throw base::Failure("open", file.string(), error.message());
    if (!is_there)
        throw base::Failure("open", file.string(),
                            "there is no library yet; `gamut import` with a folder of ABC files makes one");
    if (std::filesystem::is_directory(file, error))
        throw base::Failure("open", file.string(), "it is a folder, not a gamut library");
    auto database = std::make_unique<Database>(file, Access::read);
    require_current(*database);
    // One transaction for all questions: an import that runs meanwhile does not change the answers half way.
    database->exec("BEGIN");
    return Library(std::move(database));
}

}  // namespace library
