// Rhythms and keys that a person said, by the settings they hold for.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>

#include "collection/collection.h"
#include "music/key.h"
#include "tune/record.h"

namespace collection {

struct SaidKind {
    std::optional<std::string> rhythm;
    std::optional<music::Key> key;
};

// The later words of all that was said of a family's tunes.
struct SaidOfFamily {
    std::optional<std::string> rhythm;
    std::optional<music::Key> key;
    tune::TuneId key_of;  // the own tune of the setting whose key it is
};

// A setting of the family, present or gone.
struct FamilyMember {
    tune::SettingId setting;
    tune::TuneId own;
    std::optional<std::uint64_t> melody_class;
    std::optional<int> first_note, last_note;  // MIDI
    std::optional<music::Key> stated;          // in force at its first note
};

// What is said of a tune holds for all settings of its family, of two sayings the later. A key is that of the setting
// it was said of; for a setting in another key it is moved: by the first notes where both are exactly one melody, else
// by the tonics the files state, else by the last notes. Source: house choice; a tune ends on its home note more often
// than not.
class SaidKinds {
public:
    void add(const SaidOfFamily& said, std::span<const FamilyMember> members);

    const SaidKind* of(tune::SettingId setting) const;  // nothing where nobody said anything
    void put_into(tune::TuneRecord& record) const;
    bool settles(const FoundOddity& found) const;  // a person has said what the oddity asks about

private:
    std::unordered_map<std::int64_t, SaidKind> by_setting_;
};

}  // namespace collection
