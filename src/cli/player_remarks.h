// What is told beside the answer when something is said of a player's tunes or notes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "library/library.h"

namespace cli {

// The event of a later day that says its state: one said of `day` does not change it.
std::optional<tune::DatedEvent> later_state(const tune::PlayerTune& said, base::Date day);

// ` Still being learnt: X; gamut player tune ...`: of tunes that went well those that are in state learning; empty for
// none.
std::string still_learnt(const collection::PlayerRecord& player, const collection::Collection& library,
                         const std::vector<tune::TuneId>& played_well);

// Each writes one remark, or none.
void tell_still_to_come(base::Date day);
// Notes of tunes now known that the instrument in the player's hands has not.
void tell_out_of_reach(const collection::PlayerRecord& player, const collection::Collection& library,
                       const std::vector<tune::TuneId>& known);
// Dropped notes that the player has all the same, of tunes.
void tell_not_dropped(const collection::PlayerRecord& player, const collection::Collection& library,
                      const music::NoteSet& dropped);

}  // namespace cli
