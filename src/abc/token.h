// The words of a tune, each with its place: nothing interpreted yet, nothing dropped.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "base/span.h"
#include "music/pitch.h"

namespace abc {

enum class TokenKind : std::uint8_t {
    field,      // `text` is the value, `letter` the field
    continued,  // `+:`, or a line that belongs to the H: above it
    directive,  // `%%...`: `text` is what follows the signs
    comment,
    note,      // accidental, letter, octave marks, length
    rest,      // z x
    bar_rest,  // Z X: whole bars
    spacer,    // y
    chord_open,
    chord_close,  // with the length behind it
    grace_open,
    grace_close,
    bar,
    ending,  // `[1`, or the digits right after a bar: `text` is the list
    tuplet,
    broken,  // `text` is the run of > or <
    tie,
    slur,
    overlay,
    decoration,     // `text` without its signs
    symbol_letter,  // ~ H..W h..w: what it stands for is looked up later
    chord_symbol,
    annotation,
    line_break,
    joined_line,  // a backslash at the line end
    skipped,      // a sign without meaning here; reported where the rules do not foresee it
};

std::string_view token_kind_name(TokenKind kind) noexcept;

struct Token {
    static constexpr std::int8_t kNoAccidental = 127;

    TokenKind kind = TokenKind::skipped;
    char letter = ' ';                       // of a field, a symbol letter, a rest
    bool is_inline = false;                  // a field in brackets
    bool in_body = false;                    // after the first K:
    std::int8_t accidental = kNoAccidental;  // semitones, of a note
    music::Letter note = music::Letter::C;
    std::int8_t octave = 4;       // scientific, of a note: `C` is 4
    std::uint16_t numerator = 1;  // of a length in units; of a bar rest: bars
    std::uint16_t denominator = 1;
    std::uint16_t tuplet_p = 0, tuplet_q = 0, tuplet_r = 0;  // 0 where not written
    base::Span where;
    std::string_view text;  // borrowed from the source or from its Tokens
};

}  // namespace abc
