#include "abc/number_fields.h"

#include <charconv>

#include "abc/characters.h"

namespace abc {

namespace {

constexpr int kMaxBeats = 64;  // of a meter; Source: house choice, longer bars are slips
constexpr int kMaxUnit = 512;  // Source: ABC 2.1, section 3.1.7, for L:

std::optional<int> take_number(std::string_view& text) {
    text = trim(text);
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || value <= 0) return std::nullopt;
    text = trim(text.substr(static_cast<std::size_t>(end - text.data())));
    return value;
}

bool take(std::string_view& text, char sign) {
    if (text.empty() || text.front() != sign) return false;
    text = trim(text.substr(1));
    return true;
}

}  // namespace

std::optional<music::Meter> read_meter(std::string_view text) {
    text = trim(text);
    using Kind = music::Meter::Kind;
    if (text.empty() || text == "none") return music::Meter{};
    if (text == "C") return music::Meter{Kind::common, 4, 4};
    if (text == "C|" || text == "C |") return music::Meter{Kind::cut, 2, 2};
    const bool in_parentheses = take(text, '(');
    int beats = 0;
    do {
        const auto part = take_number(text);
        if (!part || *part > kMaxBeats) return std::nullopt;
        beats += *part;
    } while (take(text, '+'));
    if (in_parentheses && !take(text, ')')) return std::nullopt;
    if (!take(text, '/')) return std::nullopt;
    const auto unit = take_number(text);
    if (!unit || *unit > kMaxUnit || beats > kMaxBeats || !text.empty()) return std::nullopt;
    return music::Meter{Kind::fraction, static_cast<std::uint16_t>(beats), static_cast<std::uint16_t>(*unit)};
}

std::optional<music::Duration> read_unit(std::string_view text) {
    text = trim(text);
    const auto numerator = take_number(text);
    if (!numerator || *numerator > kMaxUnit) return std::nullopt;
    if (text.empty()) return music::Duration(*numerator, 1);
    if (!take(text, '/')) return std::nullopt;
    const auto denominator = take_number(text);
    if (!denominator || *denominator > kMaxUnit || !text.empty()) return std::nullopt;
    return music::Duration(*numerator, *denominator);
}

music::Duration default_unit(const music::Meter& meter) {
    if (meter.is_free()) return {1, 8};
    return meter.bar_length() < music::Duration(3, 4) ? music::Duration(1, 16) : music::Duration(1, 8);
}

}  // namespace abc
