// The tonic and mode the notes speak for, whatever K: says.
#pragma once

#include <optional>

#include "analysis/key_model.h"
#include "music/melody.h"
#include "tune/facts.h"

namespace analysis {

// Nothing for a melody without notes. Where K: changes on the way, of what sounds under the first alone. Tonics are
// spelled beside the signature of the header, which has no other say.
std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const KeyModel& model = kKeyModel);

// `D =c` means D mixolydian: the mode on the tonic of K: that has its signature, failing that the one it names. Of a
// key with tonic and mode.
music::Key meant_key(const music::StatedKey& stated, const music::Melody& melody);

// With what K: says. Where the notes decide, nothing changes, but for this: a home note and a mode that K: contradicts
// are decided only where the notes are sure of both; else K:'s own is a candidate too, the last. Where they do not
// decide, K: becomes KeyFinding::stated unless they are sure that it is not; of a mode they rule out, their own mode on
// its home note. The order of the candidates stays.
std::optional<tune::KeyFinding> find_key(const music::Melody& melody, const music::StatedKey& stated,
                                         const KeyModel& model = kKeyModel);

}  // namespace analysis
