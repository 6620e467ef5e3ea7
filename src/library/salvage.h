// What can still be read of a damaged library, as a new one.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace library {

struct SalvagedTable {
    std::string name;
    std::int64_t rows = 0;     // in the new library
    std::int64_t refused = 0;  // read, but no rows that a library takes
    bool has_gaps = false;     // some could not be read, or not all can have been

    bool is_whole() const noexcept { return refused == 0 && !has_gaps; }
};

struct Salvage {
    std::vector<SalvagedTable> tables;  // those of the schema, in its order
    std::int64_t tunes_made_up = 0;     // of which something is said and nothing else is left
    std::int64_t rows_let_go = 0;       // that point to what is lost

    bool is_whole() const noexcept;
};

// Writes the new library `to`, for its owner alone; `from` is not changed. The next import reads every file again,
// whatever it knows of it. Throws base::Failure when there is something named `to`, when it cannot be written, and when
// not even the tables' names can be read; then there is no new library.
Salvage salvage(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace library
