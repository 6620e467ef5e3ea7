#include "tune/title_list.h"

#include <algorithm>
#include <array>

namespace tune {

namespace {

// Longest first where one begins another.
constexpr std::array<std::string_view, 22> kBullets{
    "[ ]",    "[x]",    "[X]",    "[]",     "( )",    "(x)",    "(X)",    "-",      "*",      "+",      "\u2013",
    "\u2014", "\u2022", "\u00B7", "\u25E6", "\u25AA", "\u2610", "\u2611", "\u2612", "\u2713", "\u2714", "\u25CF"};

bool is_blank(char c) { return static_cast<unsigned char>(c) <= 0x20 || c == 0x7F; }

std::string_view without_blanks_around(std::string_view text) {
    while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
    return text;
}

// Length of the sign a line begins with, 0 when there is none. It ends in a blank, or is all there is.
std::size_t sign_length(std::string_view line) {
    const auto ends_at = [&](std::size_t at) { return at == line.size() || is_blank(line[at]); };
    const auto bullet = std::find_if(kBullets.begin(), kBullets.end(), [&](std::string_view sign) {
        return line.starts_with(sign) && ends_at(sign.size());
    });
    if (bullet != kBullets.end()) return bullet->size();
    const std::size_t digits = std::min(line.find_first_not_of("0123456789"), line.size());
    const bool is_number = digits > 0 && digits < line.size() && (line[digits] == '.' || line[digits] == ')');
    return is_number && ends_at(digits + 1) ? digits + 1 : 0;
}

}  // namespace

std::vector<ListedTitle> read_title_list(std::string_view text) {
    std::vector<ListedTitle> titles;
    std::uint32_t number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find_first_of("\r\n", at), text.size());
        std::string_view line = text.substr(at, end - at);
        at = end + (text.substr(end).starts_with("\r\n") ? 2 : 1);
        ++number;
        while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
        if (line.starts_with('#')) continue;
        for (std::size_t sign = sign_length(line); sign > 0; sign = sign_length(line)) {
            line.remove_prefix(sign);
            while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
        }
        line = without_blanks_around(line.substr(0, line.find('\t')));
        if (!line.empty()) titles.push_back({number, std::string(line)});
    }
    return titles;
}

}  // namespace tune
