// Tables come from libutf8proc (folding, widths) and iconv of the C library (older charsets). Tested by utf8_test.cc.
#include "base/utf8.h"

#include <iconv.h>
#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

namespace base {

namespace {

constexpr std::uint32_t kReplacement = 0xFFFD;

// Reads one code point and moves `at` on; kReplacement for a broken one (one byte is consumed then).
std::uint32_t next_code_point(std::string_view text, std::size_t& at) noexcept {
    utf8proc_int32_t code_point = 0;
    const auto used = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + at,
                                       static_cast<utf8proc_ssize_t>(text.size() - at), &code_point);
    if (used <= 0) {
        ++at;
        return kReplacement;
    }
    at += static_cast<std::size_t>(used);
    return static_cast<std::uint32_t>(code_point);
}

// Source: Unicode Standard Annex 9, table of explicit directional formatting characters, implicit marks among them.
bool is_bidirectional_control(std::uint32_t code_point) noexcept {
    return code_point == 0x061C || code_point == 0x200E || code_point == 0x200F ||
           (code_point >= 0x202A && code_point <= 0x202E) || (code_point >= 0x2066 && code_point <= 0x2069);
}

bool is_unsafe_to_show(std::uint32_t code_point) noexcept {
    return code_point < 0x20 || (code_point >= 0x7F && code_point < 0xA0) || is_bidirectional_control(code_point) ||
           code_point == 0x2028 || code_point == 0x2029;
}

const char* iconv_name(Charset charset) noexcept {
    switch (charset) {
        case Charset::windows_1252:
            return "WINDOWS-1252";
        case Charset::iso_8859_1:
            return "ISO-8859-1";
        case Charset::iso_8859_2:
            return "ISO-8859-2";
        case Charset::iso_8859_3:
            return "ISO-8859-3";
        case Charset::iso_8859_4:
            return "ISO-8859-4";
        case Charset::iso_8859_5:
            return "ISO-8859-5";
        case Charset::iso_8859_6:
            return "ISO-8859-6";
        case Charset::iso_8859_7:
            return "ISO-8859-7";
        case Charset::iso_8859_8:
            return "ISO-8859-8";
        case Charset::iso_8859_9:
            return "ISO-8859-9";
        case Charset::iso_8859_10:
            return "ISO-8859-10";
    }
    return "ISO-8859-1";
}

}  // namespace

bool is_utf8(std::string_view bytes) noexcept {
    std::size_t at = 0;
    while (at < bytes.size()) {
        if (static_cast<unsigned char>(bytes[at]) < 0x80) {
            ++at;
            continue;
        }
        utf8proc_int32_t code_point = 0;
        const auto used = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(bytes.data()) + at,
                                           static_cast<utf8proc_ssize_t>(bytes.size() - at), &code_point);
        if (used <= 0) return false;
        at += static_cast<std::size_t>(used);
    }
    return true;
}

void append_code_point(std::string& text, std::uint32_t code_point) {
    utf8proc_uint8_t bytes[4];
    const bool valid = utf8proc_codepoint_valid(static_cast<utf8proc_int32_t>(code_point));
    const auto used = utf8proc_encode_char(static_cast<utf8proc_int32_t>(valid ? code_point : kReplacement), bytes);
    text.append(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(used));
}

std::string decode(std::string_view bytes, Charset charset) {
    const iconv_t converter = iconv_open("UTF-8", iconv_name(charset));
    std::string text;
    text.reserve(bytes.size() + bytes.size() / 8);
    // NOLINTNEXTLINE(performance-no-int-to-ptr): so POSIX says it
    if (converter == reinterpret_cast<iconv_t>(-1)) {  // a C library without converters: Latin-1 is the plain reading
        for (const char byte : bytes) append_code_point(text, static_cast<unsigned char>(byte));
        return text;
    }
    auto* in = const_cast<char*>(bytes.data());
    std::size_t in_left = bytes.size();
    char out_bytes[4096];
    while (in_left > 0) {
        char* out = out_bytes;
        std::size_t out_left = sizeof out_bytes;
        const std::size_t before = in_left;
        iconv(converter, &in, &in_left, &out, &out_left);
        text.append(out_bytes, sizeof out_bytes - out_left);
        if (in_left > 0 && out_left >= 8 && (in_left == before || out_left > 0)) {
            append_code_point(text, kReplacement);  // stopped at a byte the charset leaves open
            ++in;
            --in_left;
        }
    }
    iconv_close(converter);
    return text;
}

namespace {

std::string mapped_text(const std::string& clean, int options) {
    utf8proc_uint8_t* mapped = nullptr;
    const auto size =
        utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(clean.data()),
                     static_cast<utf8proc_ssize_t>(clean.size()), &mapped, static_cast<utf8proc_option_t>(options));
    if (size < 0) return clean;
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(mapped, &std::free);
    return {reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(size)};
}

}  // namespace

std::string composed(std::string_view text) {
    return mapped_text(std::string(text), UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}

std::string fold(std::string_view text) {
    if (std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; })) {
        std::string lower(text);
        for (char& c : lower)
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        return lower;
    }
    return mapped_text(is_utf8(text) ? std::string(text) : printable(text), UTF8PROC_STABLE | UTF8PROC_DECOMPOSE |
                                                                                UTF8PROC_COMPAT | UTF8PROC_CASEFOLD |
                                                                                UTF8PROC_STRIPMARK | UTF8PROC_IGNORE);
}

std::size_t display_width(std::string_view text) noexcept {
    std::size_t width = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (static_cast<unsigned char>(text[at]) < 0x80) {
            ++width;
            ++at;
            continue;
        }
        const std::uint32_t code_point = next_code_point(text, at);
        width += static_cast<std::size_t>(std::max(0, utf8proc_charwidth(static_cast<utf8proc_int32_t>(code_point))));
    }
    return width;
}

std::string printable(std::string_view text) {
    std::string shown;
    shown.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (byte < 0x80) {
            shown += byte < 0x20 || byte == 0x7F ? ' ' : static_cast<char>(byte);
            ++at;
            continue;
        }
        const std::uint32_t code_point = next_code_point(text, at);
        append_code_point(shown, is_unsafe_to_show(code_point) ? ' ' : code_point);
    }
    return shown;
}

std::string without_needless_blanks(std::string_view text) {
    constexpr std::string_view kNoBreakSpace = "\xC2\xA0";
    std::string kept;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool is_wide_blank = text.substr(at, kNoBreakSpace.size()) == kNoBreakSpace;
        if (is_wide_blank) ++at;
        if (!is_wide_blank && text[at] != ' ')
            kept += text[at];
        else if (!kept.empty() && kept.back() != ' ')
            kept += ' ';
    }
    if (!kept.empty() && kept.back() == ' ') kept.pop_back();
    return kept;
}

std::size_t code_points_in(std::string_view text) noexcept {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation_byte(c); }));
}

}  // namespace base
