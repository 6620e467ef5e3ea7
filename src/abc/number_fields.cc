#include "abc/number_fields.h"

#include <algorithm>
#include <charconv>
#include <string>

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

void append_words(std::string_view text, std::string& words) {
    text = trim(text);
    if (text.empty()) return;
    if (!words.empty()) words += ' ';
    words += text;
}

// `1/4 3/8`: both together.
std::optional<music::Duration> take_beat(std::string_view text) {
    std::optional<music::Duration> beat;
    for (text = trim(text); !text.empty(); text = trim(text)) {
        const std::size_t end = std::min(text.find_first_of(" \t"), text.size());
        const auto part = read_unit(text.substr(0, end));
        if (!part) return std::nullopt;
        beat = beat ? sum(*beat, *part) : part;
        if (!beat) return std::nullopt;
        text = text.substr(end);
    }
    return beat;
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

std::optional<tune::Tempo> read_tempo(std::string_view text) {
    text = trim(text);
    if (text.empty()) return std::nullopt;
    tune::Tempo tempo;
    std::string figures;
    while (!text.empty()) {
        const std::size_t opens = std::min(text.find('"'), text.size());
        figures += text.substr(0, opens);
        figures += ' ';
        text.remove_prefix(std::min(opens + 1, text.size()));
        const std::size_t closes = std::min(text.find('"'), text.size());
        append_words(text.substr(0, closes), tempo.words);
        text.remove_prefix(std::min(closes + 1, text.size()));
    }
    std::string_view rest = trim(figures);
    const std::size_t equals = rest.rfind('=');
    std::string_view number = equals == std::string_view::npos ? rest : rest.substr(equals + 1);
    tempo.beats_a_minute = take_number(number);
    if (!tempo.beats_a_minute || !number.empty()) {
        tempo.beats_a_minute.reset();
        append_words(rest, tempo.words);
    } else if (equals != std::string_view::npos) {
        tempo.beat = take_beat(rest.substr(0, equals));
    }
    return tempo;
}

}  // namespace abc
