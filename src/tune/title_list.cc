#include "tune/title_list.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "tune/title.h"

namespace tune {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// Longest first where one begins another.
constexpr std::array<std::string_view, 22> kBullets{
    "[ ]",    "[x]",    "[X]",    "[]",     "( )",    "(x)",    "(X)",    "-",      "*",      "+",      "\u2013",
    "\u2014", "\u2022", "\u00B7", "\u25E6", "\u25AA", "\u2610", "\u2611", "\u2612", "\u2713", "\u2714", "\u25CF"};

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

// Empty where there is none.
std::string_view title_in(std::string_view line) {
    while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
    if (line.starts_with('#')) return {};
    for (std::size_t sign = sign_length(line); sign > 0; sign = sign_length(line)) {
        line.remove_prefix(sign);
        while (!line.empty() && is_blank(line.front())) line.remove_prefix(1);
    }
    return without_blanks_around(line.substr(0, line.find('\t')));
}

}  // namespace

std::vector<ListedTitle> read_title_list(std::string_view bytes) {
    if (bytes.starts_with(kByteOrderMark)) bytes.remove_prefix(kByteOrderMark.size());
    std::vector<ListedTitle> titles;
    std::uint32_t number = 0;
    for (std::size_t at = 0; at < bytes.size();) {
        const std::size_t end = std::min(bytes.find_first_of("\r\n", at), bytes.size());
        const std::string_view written = bytes.substr(at, end - at);
        at = end + (bytes.substr(end).starts_with("\r\n") ? 2 : 1);
        ++number;
        const bool is_utf8 = base::is_utf8(written);
        const std::string decoded = is_utf8 ? std::string() : base::decode(written, base::Charset::windows_1252);
        const std::string_view title = title_in(is_utf8 ? written : decoded);
        if (!title.empty()) titles.push_back({number, std::string(title), is_utf8});
    }
    return titles;
}

}  // namespace tune
