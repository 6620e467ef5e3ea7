// Where a library is, what it holds, and what was done to keep it safe: `gamut library`.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "report/document.h"

namespace report {

struct LibraryPage {
    std::string file;
    std::uint64_t bytes = 0;
    bool may_others_read = false;
    std::int64_t files = 0, tunes = 0, settings = 0, files_gone = 0, settings_gone = 0;
    std::int64_t tagged = 0, counted = 0, verdicts = 0, players = 0, events = 0, wishes = 0, exclusions = 0, terms = 0;
    std::vector<std::pair<std::string, std::uint64_t>> backups;  // file and bytes, the oldest first
};

Document describe(const LibraryPage& page);
std::string as_json(const LibraryPage& page);

// What is not as it should be, and what can be done about it.
struct SoundnessPage {
    struct Flaw {
        std::string part;  // `file`, `computed`, `said`
        std::string sentence;
    };
    std::string file;
    std::vector<Flaw> flaws;
    std::int64_t settings = 0, sayings = 0;
    std::vector<std::string> advice;  // sentences, the first thing to do first
};

Document describe(const SoundnessPage& page);
std::string as_json(const SoundnessPage& page);

struct SalvagePage {
    struct Part {
        std::string name;
        std::int64_t rows = 0, refused = 0;
        bool has_gaps = false;
    };
    std::string file;  // the new one
    std::vector<Part> parts;
    std::int64_t tunes_made_up = 0, rows_let_go = 0;
    bool is_whole = false;
};

Document describe(const SalvagePage& page);

std::string size_in_words(std::uint64_t bytes);  // `812 bytes`, `4.2 KB`, `31.0 MB`; in thousands

}  // namespace report
