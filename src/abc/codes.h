// The closed list of what reading and moving can report. `schema/diagnostics.md` explains each to a player; a test
// holds the two together.
#pragma once

#include <span>
#include <string_view>

#include "base/diagnostics.h"

namespace abc {

// What one kind of finding is called and how grave it is. error: something written was lost. warning: something was
// guessed. remark: read as the rules say, worth knowing.
struct Code {
    std::string_view token;
    base::Severity severity;
};

namespace code {

using base::Severity;

inline constexpr Code kNoNumber{"abc-no-number", Severity::warning};
inline constexpr Code kBadNumber{"abc-bad-number", Severity::warning};
inline constexpr Code kNumberAgain{"abc-number-again", Severity::remark};
inline constexpr Code kNoBlankLine{"abc-no-blank-line", Severity::warning};
inline constexpr Code kFieldsOutside{"abc-fields-outside", Severity::warning};
inline constexpr Code kMusicOutside{"abc-music-outside", Severity::warning};
inline constexpr Code kNoTitle{"abc-no-title", Severity::remark};
inline constexpr Code kNoKey{"abc-no-key", Severity::warning};
inline constexpr Code kNoMusic{"abc-no-music", Severity::remark};
inline constexpr Code kTextInHeader{"abc-text-in-header", Severity::error};
inline constexpr Code kIndentedField{"abc-indented-field", Severity::warning};
inline constexpr Code kUnknownField{"abc-unknown-field", Severity::remark};
inline constexpr Code kStrayField{"abc-stray-field", Severity::warning};
inline constexpr Code kUnclosedField{"abc-unclosed-field", Severity::warning};
inline constexpr Code kUnknownKey{"abc-unknown-key", Severity::error};
inline constexpr Code kOddKey{"abc-odd-key", Severity::warning};
inline constexpr Code kWordsAfterKey{"abc-words-after-key", Severity::warning};
inline constexpr Code kUnknownSpecifier{"abc-unknown-specifier", Severity::remark};
inline constexpr Code kBadMeter{"abc-bad-meter", Severity::warning};
inline constexpr Code kBadUnit{"abc-bad-unit", Severity::warning};
inline constexpr Code kBadMacro{"abc-bad-macro", Severity::warning};
inline constexpr Code kBadSymbol{"abc-bad-symbol", Severity::warning};
inline constexpr Code kBadVoice{"abc-bad-voice", Severity::warning};
inline constexpr Code kBadInstruction{"abc-bad-instruction", Severity::warning};
inline constexpr Code kIncludeNotRead{"abc-include-not-read", Severity::warning};
inline constexpr Code kGuessedCharset{"abc-guessed-charset", Severity::remark};
inline constexpr Code kMailResidue{"abc-mail-residue", Severity::warning};
inline constexpr Code kPageResidue{"abc-page-residue", Severity::warning};
inline constexpr Code kLongLine{"abc-long-line", Severity::error};
inline constexpr Code kLongTune{"abc-long-tune", Severity::error};
inline constexpr Code kOldContinuation{"abc-old-continuation", Severity::warning};
inline constexpr Code kBadLength{"abc-bad-length", Severity::warning};
inline constexpr Code kLoneAccidental{"abc-lone-accidental", Severity::error};
inline constexpr Code kMicrotone{"abc-microtone", Severity::warning};
inline constexpr Code kOutOfRange{"abc-out-of-range", Severity::error};
inline constexpr Code kUnknownLetter{"abc-unknown-letter", Severity::remark};
inline constexpr Code kUnknownSign{"abc-unknown-sign", Severity::warning};
inline constexpr Code kReservedSign{"abc-reserved-sign", Severity::remark};
inline constexpr Code kUnclosedQuote{"abc-unclosed-quote", Severity::warning};
inline constexpr Code kUnclosedChord{"abc-unclosed-chord", Severity::warning};
inline constexpr Code kUnclosedGrace{"abc-unclosed-grace", Severity::warning};
inline constexpr Code kStrayBracket{"abc-stray-bracket", Severity::warning};
inline constexpr Code kBadTuplet{"abc-bad-tuplet", Severity::warning};
inline constexpr Code kShortTuplet{"abc-short-tuplet", Severity::warning};
inline constexpr Code kLoneBroken{"abc-lone-broken", Severity::warning};
inline constexpr Code kLoneTie{"abc-lone-tie", Severity::remark};
inline constexpr Code kOldBreak{"abc-old-break", Severity::remark};
inline constexpr Code kOldDecoration{"abc-old-decoration", Severity::remark};
inline constexpr Code kOldChord{"abc-old-chord", Severity::remark};
inline constexpr Code kRestWithoutMeter{"abc-rest-without-meter", Severity::warning};
inline constexpr Code kLengthsTooFine{"abc-lengths-too-fine", Severity::warning};
// Raised where a tune is moved, not where it is read.
inline constexpr Code kNotMoved{"abc-not-moved", Severity::error};
inline constexpr Code kChordLeftOut{"abc-chord-left-out", Severity::error};
inline constexpr Code kMacroWrittenOut{"abc-macro-written-out", Severity::remark};
inline constexpr Code kPipesMoved{"abc-pipes-moved", Severity::remark};

}  // namespace code

std::span<const Code> all_codes() noexcept;  // of reading
std::span<const Code> codes_of_moving() noexcept;

}  // namespace abc
