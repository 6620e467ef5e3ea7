// The text of one file as UTF-8, with its line index.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/span.h"
#include "base/utf8.h"

namespace base {

// Line and column as people count them: from 1, the column in code points.
struct Place {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
};

// How the bytes became text.
enum class Decoding : std::uint8_t { utf8, named_charset, assumed_windows_1252 };

// A stretch of the file that is read as something else.
struct Rewriting {
    Span written;      // in the file
    std::string read;  // what stands there for reading
};

// Owns its text. Lines end at LF, CR LF or a lone CR, also mixed. Offsets count in the text as it is read; places and
// lines are those of the file, so that what was read otherwise is found where it was written.
class SourceFile {
public:
    // `text` must be UTF-8 of at most 4 GiB; `label` is the path shown to the user.
    SourceFile(std::string label, std::string text, Decoding decoding = Decoding::utf8);

    const std::string& label() const noexcept { return label_; }
    std::string_view text() const noexcept { return text_; }
    Decoding decoding() const noexcept { return decoding_; }

    // The same file with other words in places: in order, none overlapping, of a file that has no other words yet.
    SourceFile rewritten(std::vector<Rewriting> changes) &&;
    const std::vector<Rewriting>& rewritings() const noexcept { return rewritings_; }
    std::string_view written() const noexcept { return rewritings_.empty() ? text_ : written_; }  // the file's own text

    Place place_of(std::uint32_t offset) const;
    // Where in the file what is read at an offset was written.
    std::uint32_t written_at(std::uint32_t offset) const noexcept;
    // As written. Lines count from 1; without its line end. An empty view beyond the last line.
    std::string_view line_text(std::uint32_t line) const;
    std::uint32_t line_begin(std::uint32_t line) const;

private:
    const std::vector<std::uint32_t>& line_starts() const;
    std::uint32_t letters_before(std::uint32_t offset) const;  // once line_starts() was called

    std::string label_;
    std::string text_;
    std::string written_;  // only where it is read otherwise
    std::vector<Rewriting> rewritings_;
    std::vector<std::uint32_t> read_ends_;  // of each of them, in the text as it is read
    Decoding decoding_;
    // Made when a place is first asked for: most files are never asked. Of each kStride-th byte, how many letters stand
    // before it, so that a place far out in a line costs no more than one at its beginning.
    mutable std::vector<std::uint32_t> line_starts_, letters_before_;
};

// Bytes to text: byte order marks at the start, and at the start of a line, are dropped; a charset named by
// `I:abc-charset` or `%%abc-charset` near the top is obeyed; what is not UTF-8 and names no charset is read as
// Windows-1252. ABC standard 2.1, section 3.1.17.
SourceFile decode_source(std::string label, std::string bytes);

// NUL bytes near the start: no text file. ABC is text, so nothing in such a file is read.
bool looks_binary(std::string_view bytes) noexcept;

}  // namespace base
