// Words are folded, made singular and looked up in a table. Tested by rhythm_words_test.cc.
#include "analysis/rhythm_words.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <optional>
#include <utility>

#include "base/utf8.h"

namespace analysis {

namespace {

using music::Duration;
using music::Meter;
using Name = std::pair<std::string_view, std::string_view>;

// clang-format off
// Written, singular and folded, hyphens as blanks -> token.
// Source: common practice, no source; mis-spellings from memory.
constexpr std::array kNames{
    Name{"reel", "reel"}, Name{"single reel", "reel"}, Name{"double reel", "reel"}, Name{"reell", "reel"},
    Name{"jig", "jig"}, Name{"double jig", "jig"}, Name{"irish jig", "jig"}, Name{"scotch jig", "jig"},
    Name{"jigg", "jig"}, Name{"slip jig", "slip jig"}, Name{"slipjig", "slip jig"}, Name{"hop jig", "hop jig"},
    Name{"hopjig", "hop jig"}, Name{"single jig", "single jig"}, Name{"slide", "slide"}, Name{"polka", "polka"},
    Name{"polca", "polka"}, Name{"hornpipe", "hornpipe"}, Name{"horn pipe", "hornpipe"}, Name{"hornpip", "hornpipe"},
    Name{"hornpype", "hornpipe"}, Name{"triple hornpipe", "triple hornpipe"},
    Name{"triple time hornpipe", "triple hornpipe"}, Name{"3/2 hornpipe", "triple hornpipe"},
    Name{"three two", "triple hornpipe"}, Name{"barndance", "barndance"}, Name{"barn dance", "barndance"},
    Name{"highland fling", "highland fling"}, Name{"highland", "highland fling"}, Name{"fling", "highland fling"},
    Name{"schottische", "schottische"}, Name{"schottisch", "schottische"}, Name{"schottishe", "schottische"},
    Name{"scottische", "schottische"}, Name{"shottische", "schottische"}, Name{"shottisch", "schottische"},
    Name{"strathspey", "strathspey"}, Name{"strathpey", "strathspey"}, Name{"strathspay", "strathspey"},
    Name{"march", "march"}, Name{"quick march", "march"}, Name{"slow march", "march"}, Name{"pipe march", "march"},
    Name{"waltz", "waltz"}, Name{"waltze", "waltz"}, Name{"walz", "waltz"}, Name{"slow waltz", "waltz"},
    Name{"mazurka", "mazurka"}, Name{"mazourka", "mazurka"}, Name{"mazurca", "mazurka"},
    Name{"varsovienne", "varsovienne"}, Name{"varsoviana", "varsovienne"}, Name{"rant", "rant"},
    Name{"set dance", "set dance"}, Name{"setdance", "set dance"}, Name{"long dance", "set dance"},
    Name{"air", "air"}, Name{"slow air", "air"}, Name{"song air", "air"}, Name{"lament", "air"},
    Name{"slow", "air"}, Name{"aire", "air"}, Name{"slow song", "air"}, Name{"slow tune", "air"},
    Name{"planxty", "planxty"},
};
// clang-format on

std::optional<std::string> known_token(std::string_view word) {
    for (const auto& [written, token] : kNames)
        if (word == written) return std::string(token);
    return std::nullopt;
}

std::string singular(std::string word) {
    const auto ends = [&](std::string_view tail) { return word.size() > tail.size() + 2 && word.ends_with(tail); };
    if (ends("tzes") || ends("ches"))
        word.resize(word.size() - 2);
    else if (ends("eys"))
        word.pop_back();
    else if (ends("ies"))
        word.resize(word.size() - 3), word += 'y';
    else if (ends("s") && !word.ends_with("ss"))
        word.pop_back();
    return word;
}

// Without blanks and full stops at the ends, one blank between words.
std::string trimmed(std::string_view text) {
    std::string word;
    for (const char c : text) {
        const bool is_blank = c == ' ' || c == '\t' || c == '_';
        if (is_blank && (word.empty() || word.back() == ' ')) continue;
        word += is_blank ? ' ' : c;
    }
    while (!word.empty() && (word.back() == ' ' || word.back() == '.' || word.back() == ',')) word.pop_back();
    return word;
}

}  // namespace

std::optional<std::string> known_rhythm(std::string_view folded_words) {
    return known_token(singular(std::string(folded_words)));
}

std::vector<std::string> known_rhythms() {
    std::vector<std::string> tokens;
    for (const auto& [written, token] : kNames)
        if (std::find(tokens.begin(), tokens.end(), token) == tokens.end()) tokens.emplace_back(token);
    return tokens;
}

std::string rhythm_token(std::string_view stated) {
    const std::string folded = trimmed(base::fold(stated));
    std::string spaced = folded;
    std::replace(spaced.begin(), spaced.end(), '-', ' ');
    if (auto token = known_rhythm(trimmed(spaced))) return *token;
    constexpr std::string_view kSlow = "slow ";
    if (spaced.starts_with(kSlow))
        if (auto token = known_rhythm(trimmed(spaced.substr(kSlow.size())))) return *token;
    // `jigs (slip)`, `jig, double`: with the addition before it, else without.
    const std::size_t cut = spaced.find_first_of("(,[");
    if (cut != std::string::npos && cut > 0) {
        const std::string kind = singular(trimmed(spaced.substr(0, cut)));
        std::string addition = spaced.substr(cut + 1);
        addition.resize(std::min(addition.size(), addition.find_first_of(")]")));
        if (auto token = known_token(trimmed(addition) + " " + kind)) return *token;
        if (auto token = known_token(kind)) return *token;
    }
    return singular(folded);
}

MeterFamily meter_family(const Meter& meter) {
    if (meter.is_free()) return MeterFamily::other;
    const bool is_in_crotchets_or_less = meter.unit == 4 || meter.unit == 8 || meter.unit == 16;
    if (is_in_crotchets_or_less) {
        if (meter.beats == 6) return MeterFamily::six;
        if (meter.beats == 9) return MeterFamily::nine;
        if (meter.beats == 12) return MeterFamily::twelve;
        if (meter.beats == 3 && meter.unit != 16) return MeterFamily::three;
    }
    if (meter.beats == 3 && meter.unit == 2) return MeterFamily::three_minims;
    if (meter.beats != 2 && meter.beats != 4) return MeterFamily::other;
    const Duration bar = meter.bar_length();
    if (bar == Duration(1, 1) || bar == Duration(2, 1)) return MeterFamily::duple;
    return bar == Duration(1, 2) || bar == Duration(1, 4) ? MeterFamily::short_duple : MeterFamily::other;
}

std::string rhythm_in_meter(std::string token, const Meter& meter) {
    if (token == "jig" && meter_family(meter) == MeterFamily::nine) return "slip jig";
    return token;
}

bool is_known_rhythm(std::string_view token) {
    return std::any_of(kNames.begin(), kNames.end(), [token](const Name& name) { return name.second == token; });
}

bool rhythm_suits(std::string_view token, const Meter& meter) {
    if (meter.is_free()) return true;
    const auto is_one_of = [&](std::initializer_list<std::string_view> kinds) {
        return std::find(kinds.begin(), kinds.end(), token) != kinds.end();
    };
    const MeterFamily family = meter_family(meter);
    const bool is_duple = family == MeterFamily::duple || family == MeterFamily::short_duple;
    // A bar of 12/8 is two of 6/8, and what is swung in 4/4 some write out in 12/8.
    const bool is_twelve = family == MeterFamily::twelve;
    if (is_one_of({"jig", "single jig", "slide"})) return family == MeterFamily::six || is_twelve;
    if (is_one_of({"slip jig", "hop jig"})) return family == MeterFamily::nine;
    if (is_one_of({"waltz", "mazurka", "varsovienne"})) return family == MeterFamily::three;
    if (token == "triple hornpipe") return family == MeterFamily::three_minims;
    if (is_one_of({"reel", "polka", "strathspey"})) return is_duple;
    // In 3/2 by a name that English and Northumbrian players share.
    if (token == "hornpipe") return is_duple || is_twelve || family == MeterFamily::three_minims;
    if (is_one_of({"barndance", "highland fling", "schottische"})) return is_duple || is_twelve;
    return true;
}

}  // namespace analysis
