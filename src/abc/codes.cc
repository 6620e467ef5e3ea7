#include "abc/codes.h"

#include <array>

namespace abc {

std::span<const Code> all_codes() noexcept {
    using namespace code;
    static constexpr std::array kAll{kNoNumber,       kBadNumber,        kNumberAgain,     kNoBlankLine,
                                     kFieldsOutside,  kMusicOutside,     kNoTitle,         kNoKey,
                                     kNoMusic,        kTextInHeader,     kIndentedField,   kUnknownField,
                                     kStrayField,     kUnclosedField,    kUnknownKey,      kOddKey,
                                     kWordsAfterKey,  kUnknownSpecifier, kBadMeter,        kBadUnit,
                                     kBadMacro,       kBadSymbol,        kBadVoice,        kBadInstruction,
                                     kIncludeNotRead, kGuessedCharset,   kMailResidue,     kPageResidue,
                                     kLongLine,       kLongTune,         kOldContinuation, kBadLength,
                                     kLoneAccidental, kMicrotone,        kOutOfRange,      kUnknownLetter,
                                     kUnknownSign,    kReservedSign,     kUnclosedQuote,   kUnclosedChord,
                                     kUnclosedGrace,  kStrayBracket,     kBadTuplet,       kShortTuplet,
                                     kLoneBroken,     kLoneTie,          kOldBreak,        kOldDecoration,
                                     kOldChord,       kRestWithoutMeter, kLengthsTooFine};
    return kAll;
}

std::span<const Code> codes_of_moving() noexcept {
    static constexpr std::array kAll{code::kNotMoved, code::kChordLeftOut, code::kMacroWrittenOut, code::kPipesMoved};
    return kAll;
}

}  // namespace abc
