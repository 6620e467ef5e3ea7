// One file of the user's as the library takes it in: read, parsed, analysed. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "importer/import.h"
#include "importer/scan.h"
#include "library/intake.h"

namespace importer {

struct Reading {
    enum class Outcome : std::uint8_t { read, same_bytes, failed };

    Outcome outcome = Outcome::read;
    collection::StoredFile file;  // when read
    std::optional<std::string>
        remark;  // why it failed, or what is odd about the file as a whole: a PathRemark's sentence
    collection::OddCounts odd;
    std::vector<std::string> printed;  // as ImportReport::printed
};

// `known`: what the library has of this path, or null. Never throws for what is wrong with the file.
Reading read_file(const FoundFile& found, const library::KnownFile* known, const ImportOptions& options);

}  // namespace importer
