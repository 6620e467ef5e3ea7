// A tune in another key: its text with the notes moved, and nothing else touched.
#pragma once

#include <string>

#include "base/diagnostics.h"
#include "base/source_file.h"

namespace abc {

// The farthest a tune is moved, in semitones either way. Source: house choice, two octaves.
inline constexpr int kMostSemitones = 24;

// The text of a tune behind its file's header, or of a whole tunebook, with every note sounding exactly `semitones`
// higher, -24 to 24. Keys, notes, chord symbols and the notes in macros are rewritten; every other byte stands as it
// was: layout, comments, words, decorations, lengths, bars. Keys are spelled by music::moved, notes by the interval
// from key to key, with a sign where the writer put one or where the new place needs one; whole octaves keep the keys.
//
// A tune that cannot be moved so comes back unmoved (where only reading the result shows it, the whole book does), with
// the error `abc-not-moved` at what hinders: a quarter tone, a note that would leave the MIDI range. A macro that would
// not mean the same is written out, with a remark. Only findings of moving go to `diagnostics`; what reading has to say
// is read_settings' to say.
std::string moved(const base::SourceFile& source, int semitones, base::Diagnostics& diagnostics);

}  // namespace abc
