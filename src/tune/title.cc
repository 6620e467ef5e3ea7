#include "tune/title.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"

namespace tune {

namespace {

constexpr std::array<std::string_view, 9> kArticles{"the", "a", "an", "le", "la", "les", "die", "der", "das"};

bool is_article(std::string_view word) { return std::find(kArticles.begin(), kArticles.end(), word) != kArticles.end(); }

}  // namespace

std::string fold_title(std::string_view title) {
    const std::string folded = base::fold(title);
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
    if (last_follows_comma && is_article(std::string_view(words).substr(last_blank + 1))) return words.substr(0, last_blank);
    if (is_article(std::string_view(words).substr(0, first_blank))) return words.substr(first_blank + 1);
    return words;
}

}  // namespace tune
