// The tonic and mode the notes speak for, whatever K: says.
#pragma once

#include <optional>

#include "analysis/key_model.h"
#include "music/melody.h"
#include "tune/facts.h"

namespace analysis {

// Nothing for a melody without notes. Tonics are spelled beside the signature of the header, which has no other say.
std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const KeyModel& model = kKeyModel);

}  // namespace analysis
