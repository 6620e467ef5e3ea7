// The published tune books in `shared`/corpus, for what is fitted to them and measured on them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tune/setting.h"

namespace support {

// The folders of shared/corpus that are read, in this order: O'Neill's Music of Ireland (1903), Aird's Selection of
// Airs, volumes 1 to 3 (from 1778), Ryan's Mammoth Collection (1883).
inline constexpr std::string_view kOneills = "oneills";
inline constexpr std::string_view kAirds = "airds-1-3";
inline constexpr std::string_view kRyans = "ryans";

struct BookTune {
    std::string collection;  // one of the three above
    std::string file;        // its name without folder and extension; in Aird's that is the book
    bool held_out = false;   // nothing may be fitted to it, no threshold chosen by it: see is_held_out
    tune::Setting setting;
};

// Where the books are: $GAMUT_SHARED, else `shared` beside the source folder. Nothing when there are none; a test then
// exits with kSkipped.
std::optional<std::filesystem::path> find_shared();
constexpr int kSkipped = 77;

// Whether a file is kept out of every fit: Aird's book 3; of Ryan's each file whose name, extension included, has an
// FNV-1a hash of 32 bits that three divides (360 of 1059). Source: FNV-1a, Fowler, Noll and Vo, draft-eastlake-fnv
// (from memory).
bool is_held_out(std::string_view collection, std::string_view file_name);

// Every tune, fragments and tunes without a note too: collections as above, files by name, tunes as they stand. A tune
// may be in more than one file, and under more than one title. Throws base::Failure where a file cannot be read.
std::vector<BookTune> read_books(const std::filesystem::path& shared);

}  // namespace support
