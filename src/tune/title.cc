#include "tune/title.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"

namespace tune {

namespace {

constexpr std::array<std::string_view, 9> kArticles{"the", "a", "an", "le", "la", "les", "die", "der", "das"};

// Apostrophes, quotes and dashes of printed text as the plain ones: all of Unicode's general punctuation, U+2000 to
// U+206F.
std::string with_plain_signs(std::string_view text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool is_general =
            at + 2 < text.size() && text[at] == '\xE2' && (text[at + 1] == '\x80' || text[at + 1] == '\x81');
        const bool is_guillemet =
            at + 1 < text.size() && text[at] == '\xC2' && (text[at + 1] == '\xAB' || text[at + 1] == '\xBB');
        if (is_general) {
            const char last = text[at + 2];
            const bool is_apostrophe = text[at + 1] == '\x80' && (last == '\x98' || last == '\x99' || last == '\x9B');
            plain += is_apostrophe ? '\'' : ' ';
            at += 2;
        } else if (is_guillemet) {
            plain += ' ';
            at += 1;
        } else {
            plain += text[at];
        }
    }
    return plain;
}

bool is_article(std::string_view word) {
    return std::find(kArticles.begin(), kArticles.end(), word) != kArticles.end();
}

}  // namespace

std::string fold_title(std::string_view title) {
    const std::string folded = base::fold(with_plain_signs(title));
    std::string words;
    bool after_comma = false;
    bool last_follows_comma = false;
    for (const char c : folded) {
        const bool is_word = static_cast<unsigned char>(c) >= 0x80 || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (c == '\'') continue;  // miller's and millers are one word
        if (is_word) {
            if (!words.empty() && words.back() == ' ') last_follows_comma = after_comma;
            words += c;
            after_comma = false;
        } else {
            if (!words.empty() && words.back() != ' ') words += ' ';
            after_comma = after_comma || c == ',';
        }
    }
    while (!words.empty() && words.back() == ' ') words.pop_back();
    const std::size_t first_blank = words.find(' ');
    if (first_blank == std::string::npos) return words;
    const std::size_t last_blank = words.rfind(' ');
    if (last_follows_comma && is_article(std::string_view(words).substr(last_blank + 1)))
        return words.substr(0, last_blank);
    const std::string_view first = std::string_view(words).substr(0, first_blank);
    if (!is_article(first)) return words;
    const std::string rest = words.substr(first_blank + 1);
    const bool has_joining_t = first == "an" && rest.starts_with("t ");  // `An t-`
    return has_joining_t ? rest.substr(2) : rest;
}

bool is_blank(char c) noexcept { return static_cast<unsigned char>(c) <= 0x20 || c == 0x7F; }

std::string_view without_blanks_around(std::string_view text) noexcept {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

}  // namespace tune
