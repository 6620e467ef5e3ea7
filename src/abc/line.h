// One line of a file, without its line end.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string_view>

#include "abc/characters.h"

namespace abc {

// Walks the lines of a text; LF, CR LF and a lone CR all end one.
class LineWalk {
public:
    LineWalk(std::string_view text, std::uint32_t from, std::uint32_t to) noexcept : text_(text), at_(from), end_(to) {
        line_feed_ = static_cast<std::uint32_t>(std::min<std::size_t>(text_.find('\n', from), to));
    }

    // False at the end. Afterwards `line` and `begin` speak of the line read.
    bool next() noexcept {
        if (at_ >= end_) return false;
        begin = at_;
        // The next line feed is remembered, so that a file of lone CRs is not searched to its end for every line.
        if (line_feed_ < at_)
            line_feed_ = static_cast<std::uint32_t>(std::min<std::size_t>(text_.find('\n', at_), end_));
        const std::string_view rest = text_.substr(at_, line_feed_ - at_);
        const std::uint32_t line_end = at_ + static_cast<std::uint32_t>(std::min(rest.find('\r'), rest.size()));
        line = text_.substr(begin, line_end - begin);
        at_ = line_end;
        if (at_ < end_) at_ += text_[at_] == '\r' && at_ + 1 < end_ && text_[at_ + 1] == '\n' ? 2 : 1;
        return true;
    }

    std::string_view line;
    std::uint32_t begin = 0;

private:
    std::string_view text_;
    std::uint32_t at_;
    std::uint32_t end_;
    std::uint32_t line_feed_;
};

inline bool is_empty_line(std::string_view line) noexcept { return trim(line).empty(); }
inline bool is_directive(std::string_view line) noexcept { return line.starts_with("%%"); }
inline bool is_comment(std::string_view line) noexcept { return !is_directive(line) && trim(line).starts_with("%"); }
// `T:` at the first column, whatever the letter.
inline bool has_field_head(std::string_view line) noexcept {
    return line.size() >= 2 && is_letter(line[0]) && line[1] == ':';
}
inline bool is_field(std::string_view line, char letter) noexcept {
    return line.size() >= 2 && line[0] == letter && line[1] == ':';
}
// Whether the letter names a field of ABC 2.1 (section 3) or of a version before it.
inline bool is_defined_field(char letter) noexcept {
    constexpr std::string_view kDefined = "ABCDFGHIKLMmNOPQRrSsTUVWwXZ";
    return kDefined.find(letter) != std::string_view::npos;
}

}  // namespace abc
