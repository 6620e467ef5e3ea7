// Which stored setting an incoming one is: the rule by which tunes keep their ids. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace library {

// What a setting is known by.
struct Identity {
    std::optional<std::string> number;        // of X:
    std::optional<std::string> folded_title;  // of its first title
    std::uint64_t melody_hash = 0;
    bool has_notes = false;  // without notes all melodies are alike, so the melody says nothing
    bool gone = false;       // stored ones only
};

// For each of `incoming` the place in `stored` of the setting it is, each stored one given once at most. Both in the
// order of their file. In turn, over what the rules before have left:
//   1. the same number and melody                     nothing changed, or only the title was corrected
//   2. the same melody and title                      renumbered
//   3. the same melody                                renumbered and retitled
//   4. the same number and title                      a note was corrected
//   5. the same title, borne by no other on either side   a note was corrected and it was renumbered
//   6. the same number                                note and title were corrected
//   7. the same title
// Where a rule leaves a choice, present ones go before gone ones, then the order of the file decides.
// Source: house choice. The melody is the surest sign; a title is surer than a number, which moves when a tune is put
// in before.
std::vector<std::optional<std::size_t>> match_settings(std::span<const Identity> stored,
                                                       std::span<const Identity> incoming);

}  // namespace library
