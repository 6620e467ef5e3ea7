// What people said, in words: `gamut library said` and `take-back`.
#pragma once

#include <map>
#include <span>
#include <string>

#include "people/fold.h"
#include "report/document.h"

namespace report {

// A player's name by the seal that stands for the player.
using PlayerNames = std::map<people::Seal, std::string>;
PlayerNames names_of_players(std::span<const people::Entry> entries);

// One saying: `tag "wedding" for Oil for the Lantern`.
std::string in_words(const people::Words& words, const PlayerNames& names);

struct JournalPage {
    std::span<const people::Entry> entries;  // all, in order
    std::size_t limit = 20;                  // how many are shown
    PlayerNames names = {};                  // of players that none of the entries adds
};

// A line a saying, the last first.
Document describe(const JournalPage& page);
std::string as_json(const JournalPage& page);  // the shape `said` of schema/output.md

// What was taken back.
Document describe_taken_back(std::span<const people::Entry> last, const PlayerNames& names);

}  // namespace report
