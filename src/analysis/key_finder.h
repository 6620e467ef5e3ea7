// The tonic and mode the notes speak for, whatever K: says.
#pragma once

#include <optional>

#include "analysis/key_model.h"
#include "music/melody.h"
#include "tune/facts.h"

namespace analysis {

// Nothing for a melody without notes. Tonics are spelled beside the signature of the header, which has no other say.
std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const KeyModel& model = kKeyModel);

// Where the notes leave the mode open on the likeliest tonic, what K: says of it goes first, and the evidence says so.
// It decides nothing.
void put_stated_first(tune::KeyFinding& finding, const music::StatedKey& stated);

}  // namespace analysis
