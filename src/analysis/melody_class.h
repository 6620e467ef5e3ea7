// Settings that are exactly the same tune, by one number.
#pragma once

#include <cstdint>
#include <optional>

#include "tune/outline.h"

namespace analysis {

// Of the tune as play_bars_once plays it, at least. Source: house choice; the shortest that two different tunes are not
// likely to share: four bars of three notes.
constexpr std::size_t kFewestNotesOfClass = 12;

// Equal for two settings that are the same tune note for note. It counts the steps from note to note in semitones, and
// when each note is struck, measured by the time most notes take. So these do not count: key, octave and spelling of
// the whole, unit note length and how many bars a bar line parts, grace notes, pick-ups, rests for the end of a note,
// and how often a part is repeated or whether the repeat is written out. All else does: one changed, added, tied or
// dotted note makes another class. Nothing for a melody too short to say.
std::optional<std::uint64_t> melody_class(const tune::Outline& outline);

}  // namespace analysis
