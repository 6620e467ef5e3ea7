// Rhythms and keys that a person said, by the settings they hold for. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>

#include "library/database.h"
#include "music/key.h"
#include "tune/record.h"

namespace library {

struct SaidKind {
    std::optional<std::string> rhythm;
    std::optional<music::Key> key;
};

// What is said of a tune holds for all settings of its family, of two sayings the later. A key is that of the setting
// it was said of; for a setting in another key it is moved: by the first notes where both are exactly one melody, else
// by the tonics the files state, else by the last notes. Source: house choice; a tune ends on its home note more often
// than not.
class SaidKinds {
public:
    explicit SaidKinds(const Database& database);  // its cost goes with what was said

    const SaidKind* of(std::int64_t setting) const;  // nothing where nobody said anything
    void put_into(tune::TuneRecord& record) const;

private:
    std::unordered_map<std::int64_t, SaidKind> by_setting_;
};

}  // namespace library
