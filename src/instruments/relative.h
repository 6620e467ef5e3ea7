// An instrument that is another one moved: a whistle in F is the D whistle with every note three semitones up.
#pragma once

#include <optional>
#include <string_view>

#include "instruments/instrument.h"

namespace instruments {

// The same places under the hand, each note `semitones` higher, in writing and in sound alike: a tune fits it when it
// is written where the instrument is to play it. (A player who reads D fingering and lets the instrument sound where it
// may wants the instrument itself.) Nothing where a note would leave MIDI 0..127.
std::optional<Instrument> moved(const Instrument& instrument, int semitones);

// Rows and fingerings that begin with `from` begin with `to`.
void rename_row(Instrument& instrument, std::string_view from, std::string_view to);

}  // namespace instruments
