// The alphabet of ABC: plain ASCII questions, whatever the locale.
#pragma once

#include <string_view>

namespace abc {

constexpr bool is_blank(char c) noexcept { return c == ' ' || c == '\t'; }
constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }
constexpr bool is_upper(char c) noexcept { return c >= 'A' && c <= 'Z'; }
constexpr bool is_lower(char c) noexcept { return c >= 'a' && c <= 'z'; }
constexpr bool is_letter(char c) noexcept { return is_upper(c) || is_lower(c); }
constexpr bool is_note_letter(char c) noexcept { return (c >= 'A' && c <= 'G') || (c >= 'a' && c <= 'g'); }

// Letters that name no field inside a tune body, for they are music there. ABC 2.1, section 3.
constexpr bool is_music_letter(char c) noexcept {
    return is_note_letter(c) || (c >= 'X' && c <= 'Z') || (c >= 'x' && c <= 'z');
}

constexpr std::string_view trim(std::string_view text) noexcept {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

// The text up to its comment: the first `%` that is not written `\%`. ABC 2.1, section 2.2.5.
constexpr std::string_view without_comment(std::string_view text) noexcept {
    for (std::size_t at = text.find('%'); at != std::string_view::npos; at = text.find('%', at + 1))
        if (at == 0 || text[at - 1] != '\\') return text.substr(0, at);
    return text;
}

// The same for a line of music, where `\%` is a percent sign only inside a quoted text; elsewhere the backslash joins
// lines and the comment begins.
constexpr std::string_view music_without_comment(std::string_view text) noexcept {
    bool in_quotes = false;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '"') in_quotes = !in_quotes;
        if (text[at] == '%' && !(in_quotes && text[at - 1] == '\\')) return text.substr(0, at);
    }
    return text;
}

// The first word, up to a blank; `text` keeps the rest without the blanks between.
constexpr std::string_view take_word(std::string_view& text) noexcept {
    text = trim(text);
    std::size_t end = 0;
    while (end < text.size() && !is_blank(text[end])) ++end;
    const std::string_view word = text.substr(0, end);
    text = trim(text.substr(end));
    return word;
}

}  // namespace abc
