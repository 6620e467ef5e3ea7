// The names of players that stand in the text of a kept term.
#pragma once

#include <string>

#include "tune/player.h"

namespace answers {

// The text of a term with another name wherever it names that player, and as it was where it does not, or is damaged.
std::string renamed_in_term(const std::string& text, const tune::PlayerName& from, const std::string& to);

// With kRemovedPlayer wherever it says the name, of somebody who is no player any longer.
std::string unnamed_in_term(const std::string& text, const tune::PlayerName& name);

}  // namespace answers
