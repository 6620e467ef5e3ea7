#include "abc/text_string.h"

#include <array>
#include <cstdint>
#include <optional>

#include "abc/characters.h"
#include "base/utf8.h"

namespace abc {

namespace {

struct Accent {
    char sign;
    std::uint32_t combining;  // Source: Unicode, combining diacritical marks U+0300 to U+036F
};

// Source: ABC 2.1, section 8.2; `,` and `o` of abc 2.0.
constexpr std::array<Accent, 12> kAccents{{{'`', 0x300},
                                           {'\'', 0x301},
                                           {'^', 0x302},
                                           {'~', 0x303},
                                           {'"', 0x308},
                                           {'c', 0x327},
                                           {',', 0x327},
                                           {'a', 0x30A},
                                           {'A', 0x30A},
                                           {'o', 0x30A},
                                           {'u', 0x306},
                                           {'v', 0x30C}}};

struct Spelling {
    std::string_view written;
    std::string_view text;
};

constexpr std::array<Spelling, 13> kLigatures{{{"AE", "Æ"},
                                               {"ae", "æ"},
                                               {"OE", "Œ"},
                                               {"oe", "œ"},
                                               {"ss", "ß"},
                                               {"DH", "Ð"},
                                               {"dh", "ð"},
                                               {"TH", "Þ"},
                                               {"th", "þ"},
                                               {"/O", "Ø"},
                                               {"/o", "ø"},
                                               {"/L", "Ł"},
                                               {"/l", "ł"}}};

// Letters with a base, and the entity suffix that names its accent. Source: HTML 4.01, section 24.2 (Latin-1).
constexpr std::array<std::pair<std::string_view, std::uint32_t>, 7> kEntityAccents{{{"grave", 0x300},
                                                                                    {"acute", 0x301},
                                                                                    {"circ", 0x302},
                                                                                    {"tilde", 0x303},
                                                                                    {"uml", 0x308},
                                                                                    {"cedil", 0x327},
                                                                                    {"ring", 0x30A}}};
constexpr std::array<Spelling, 16> kEntities{{{"quot", "\""},
                                              {"amp", "&"},
                                              {"lt", "<"},
                                              {"gt", ">"},
                                              {"nbsp", " "},
                                              {"copy", "©"},
                                              {"reg", "®"},
                                              {"szlig", "ß"},
                                              {"AElig", "Æ"},
                                              {"aelig", "æ"},
                                              {"Oslash", "Ø"},
                                              {"oslash", "ø"},
                                              {"eth", "ð"},
                                              {"ETH", "Ð"},
                                              {"thorn", "þ"},
                                              {"THORN", "Þ"}}};

std::optional<std::uint32_t> hex_value(std::string_view digits) {
    std::uint32_t value = 0;
    for (const char c : digits) {
        const int digit = is_digit(c)            ? c - '0'
                          : c >= 'a' && c <= 'f' ? c - 'a' + 10
                          : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                                 : -1;
        if (digit < 0) return std::nullopt;
        value = value * 16 + static_cast<std::uint32_t>(digit);
    }
    return value;
}

// Base letter and mark as the one letter they make where Unicode has it (always, for the letters in use).
void append_accented(std::string& text, char letter, std::uint32_t combining) {
    text += letter;
    base::append_code_point(text, combining);
}

// At a backslash. Returns how many bytes were read; writes what they stand for.
std::size_t read_escape(std::string_view text, std::string& plain) {
    if (text.size() < 2) return 1;
    const char sign = text[1];
    if (sign == 'u' && text.size() >= 6)
        if (const auto value = hex_value(text.substr(2, 4))) return base::append_code_point(plain, *value), 6;
    if (sign == 'U' && text.size() >= 10)
        if (const auto value = hex_value(text.substr(2, 8))) return base::append_code_point(plain, *value), 10;
    if (text.size() >= 3) {
        for (const auto& ligature : kLigatures)
            if (text.substr(1, 2) == ligature.written) return plain += ligature.text, 3;
        const char letter = text[2];
        if (sign == '/' && (letter == 'D' || letter == 'd')) return plain += letter == 'D' ? "Đ" : "đ", 3;
        if (sign == 'H' && is_letter(letter)) return append_accented(plain, letter, 0x30B), 3;
        if (is_letter(letter))
            for (const auto& accent : kAccents)
                if (accent.sign == sign) return append_accented(plain, letter, accent.combining), 3;
    }
    plain += sign;  // `\\`, `\%`, `\&` and every escape nobody defined
    return 2;
}

// At an ampersand. Returns how many bytes were read, 1 for a plain ampersand.
std::size_t read_entity(std::string_view text, std::string& plain) {
    const std::size_t end = text.substr(0, 12).find(';');
    if (end == std::string_view::npos || end < 2) return plain += '&', 1;
    const std::string_view name = text.substr(1, end - 1);
    if (name[0] == '#' && name.size() > 1) {
        std::uint32_t value = 0;
        if (name[1] == 'x' || name[1] == 'X') {
            const auto hex = hex_value(name.substr(2));
            if (!hex) return plain += '&', 1;
            value = *hex;
        } else {
            for (const char c : name.substr(1)) {
                if (!is_digit(c)) return plain += '&', 1;
                value = value * 10 + static_cast<std::uint32_t>(c - '0');
            }
        }
        base::append_code_point(plain, value);
        return end + 1;
    }
    for (const auto& entity : kEntities)
        if (entity.written == name) return plain += entity.text, end + 1;
    for (const auto& [suffix, combining] : kEntityAccents)
        if (name.size() == suffix.size() + 1 && name.substr(1) == suffix && is_letter(name[0]))
            return append_accented(plain, name[0], combining), end + 1;
    return plain += '&', 1;
}

}  // namespace

std::string plain_text(std::string_view written) {
    if (written.find_first_of("\\&$") == std::string_view::npos) return std::string(written);
    std::string plain;
    for (std::size_t at = 0; at < written.size();) {
        const std::string_view rest = written.substr(at);
        if (rest[0] == '\\')
            at += read_escape(rest, plain);
        else if (rest[0] == '&')
            at += read_entity(rest, plain);
        else if (rest.starts_with("$$"))
            plain += '$', at += 2;
        else if (rest[0] == '$' && rest.size() > 1 && rest[1] >= '0' && rest[1] <= '4')
            at += 2;
        else
            plain += rest[0], ++at;
    }
    return base::composed(plain);
}

}  // namespace abc
