// UTF-8 without surprises: checking, decoding of older charsets, folding for search, width on a terminal.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace base {

constexpr bool is_continuation_byte(char byte) noexcept { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

bool is_utf8(std::string_view bytes) noexcept;

void append_code_point(std::string& text, std::uint32_t code_point);

enum class Charset : std::uint8_t {
    windows_1252,
    iso_8859_1,
    iso_8859_2,
    iso_8859_3,
    iso_8859_4,
    iso_8859_5,
    iso_8859_6,
    iso_8859_7,
    iso_8859_8,
    iso_8859_9,
    iso_8859_10
};

// Every byte becomes a code point; bytes the charset leaves open become U+FFFD.
std::string decode(std::string_view bytes, Charset charset);

// For comparing and searching: compatibility forms resolved, accents dropped, case folded.
// Not a title rule: articles and punctuation are the caller's business.
std::string fold(std::string_view text);

// Letters followed by combining marks made one letter where Unicode has it (normal form C).
std::string composed(std::string_view text);

// No-break spaces made plain blanks, runs of blanks made one, none at the ends.
std::string without_needless_blanks(std::string_view text);

// Code points, broken bytes left out.
std::size_t code_points_in(std::string_view text) noexcept;

// Columns a terminal needs, by code point width (East Asian wide counts 2, combining marks 0).
std::size_t display_width(std::string_view text) noexcept;

// The text with control characters (also the C1 range and whatever turns the direction of writing) replaced by blanks
// and broken UTF-8 by U+FFFD: safe to show.
std::string printable(std::string_view text);

}  // namespace base
