// What a library holds, counted; and whether it is sound.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "library/library.h"

namespace library {

struct Backup {
    std::filesystem::path file;
    std::uintmax_t bytes = 0;
};

struct Holdings {
    collection::Counts computed;
    std::int64_t tagged = 0, counted = 0;  // tunes
    std::int64_t verdicts = 0;
    std::int64_t players = 0, events = 0, wishes = 0, exclusions = 0;
    std::int64_t terms = 0;
    std::uintmax_t bytes = 0;      // of the file
    bool may_others_read = false;  // beside its owner
    std::vector<Backup> backups;   // that gamut made by itself, the oldest first
};

// Throws base::Failure as Library::open_existing does.
Holdings holdings_of(const std::filesystem::path& file);

enum class Part : std::uint8_t { file, computed, said };

// What is not as it should be. What was computed, an import makes anew; what was said, nothing can.
struct Flaw {
    Part part = Part::file;
    std::string sentence;
};

struct Soundness {
    std::vector<Flaw> flaws;    // by what was looked at first
    std::int64_t settings = 0;  // read, gone ones included
    std::int64_t sayings = 0;   // events, wishes, exclusions, tags, counts, verdicts and terms that were read

    bool is_journal_sound = true;  // what was said is whole, and rebuild_kept makes anew what is worked out from it

    bool is_sound() const noexcept { return flaws.empty(); }
};

// Reads all there is, by SQLite's own checks first, then as the commands would. `read_term` throws what it cannot read
// as a std::exception. Throws base::Failure where there is no file that could be a library.
Soundness look_through(const std::filesystem::path& file,
                       const std::function<void(const std::string& text)>& read_term);

}  // namespace library
