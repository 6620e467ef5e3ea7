// One tune moved: what is to be written where in its source.
#pragma once

#include <optional>

#include "abc/edits.h"
#include "abc/header.h"
#include "abc/moved_text.h"
#include "abc/tune_tokens.h"
#include "base/diagnostics.h"
#include "base/source_file.h"

namespace abc {

// The key of the first K:, as text outside the music goes by it: macros, user symbols.
music::StatedKey first_key(const Tokens& tokens);

// What becomes of macros: their definition and the places of their use are moved alike, so that they go on working; or,
// where notes in them need signs of the place they sound at, what they stand for is written there.
enum class MacroFate : std::uint8_t { kept, written_out };

// Macros and user symbols of a file header, by the key of the tune behind it.
std::optional<Hindrance> move_file_header(const base::SourceFile& source, const Tokens& tokens,
                                          const music::StatedKey& key, int semitones, MacroFate fate, Edits& edits,
                                          base::Diagnostics& diagnostics);

// `header` as it is before the tune's first token; `macro_key` is the key its macros go by. Where
// something hinders, what `edits` has gained is of no use. Remarks go to `diagnostics`.
std::optional<Hindrance> move_tune(const base::SourceFile& source, const Tokens& tokens, const Header& header,
                                   const music::StatedKey& macro_key, int semitones, MacroFate fate, Edits& edits,
                                   base::Diagnostics& diagnostics);

}  // namespace abc
