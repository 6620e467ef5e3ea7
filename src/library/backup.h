// Copies of a library, each a library itself, and coming back to one.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <vector>

namespace library {

class Database;

// How many of the copies that gamut makes by itself are kept. Source: house choice.
constexpr std::size_t kBackupsKept = 5;

// Writes the new file `to`: for its owner alone, on the disk, and looked at as a whole before it bears its name; its
// size in bytes. An import may run meanwhile: what was stored until now is in the copy. Throws Failure when there is
// something of that name, when the library is damaged, and when the copy cannot be written; then there is none.
std::uintmax_t back_up(const std::filesystem::path& library, const std::filesystem::path& to);

// The same as `FILE.backup-N` beside the library, N one more than the last. What is damaged is copied as it is, byte by
// byte where SQLite cannot read it. The name of the copy.
std::filesystem::path keep_backup(const std::filesystem::path& library);
std::filesystem::path keep_backup(const Database& library);
void drop_backup(const std::filesystem::path& backup);
std::vector<std::filesystem::path> backups_of(const std::filesystem::path& library);  // the oldest first
// To be called when what the last was kept for is done: the last kBackupsKept stay.
void drop_old_backups(const std::filesystem::path& library);

// The library becomes what `from` is: wholly or, when anything fails, not at all. What was there before is kept as a
// backup, whose name is given; nothing when there was no library. Throws Failure when `from` is no sound library, or
// while another program is writing to this one.
std::optional<std::filesystem::path> restore(const std::filesystem::path& library, const std::filesystem::path& from);

struct Sizes {
    std::uintmax_t before = 0;  // bytes
    std::uintmax_t after = 0;
};

// Gives back what deleted rows have left empty. Throws Failure while another program is using the library.
Sizes compact(const std::filesystem::path& library);

}  // namespace library
