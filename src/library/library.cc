// Tested by library_test.cc; the questions beside their files.
#include "library/library.h"

#include "library/database.h"
#include "library/existing_library.h"

namespace library {

Library::Library(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Library::Library(Library&&) noexcept = default;
Library& Library::operator=(Library&&) noexcept = default;
Library::~Library() = default;

Library Library::open_existing(const std::filesystem::path& file) {
    auto database = open_existing_library(file, Access::read);
    // One transaction for all questions: an import that runs meanwhile does not change the answers half way.
    database->exec("BEGIN");
    return Library(std::move(database));
}

}  // namespace library
