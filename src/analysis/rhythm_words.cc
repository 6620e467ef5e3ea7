// Words are folded, made singular and looked up in a table. "Measured" below: on the 888 tunes of O'Neill's Music of
// Ireland (Chicago 1903) that an ABC edition states a kind of. Tested by rhythm_words_test.cc.
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

bool is_meter(const Meter& meter, int beats, int unit) { return meter.beats == beats && meter.unit == unit; }

bool is_whole_note(const Meter& meter) { return meter.bar_length() == Duration(1, 1); }

std::string rhythm_token(std::string_view stated) {
    const std::string folded = trimmed(base::fold(stated));
    std::string spaced = folded;
    std::replace(spaced.begin(), spaced.end(), '-', ' ');
    if (auto token = known_token(singular(trimmed(spaced)))) return *token;
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

bool rhythm_suits(std::string_view token, const Meter& meter) {
    if (meter.is_free()) return true;
    const auto is_one_of = [&](std::initializer_list<std::string_view> kinds) {
        return std::find(kinds.begin(), kinds.end(), token) != kinds.end();
    };
    if (is_one_of({"jig", "single jig"})) return is_meter(meter, 6, 8);
    if (is_one_of({"slip jig", "hop jig"})) return is_meter(meter, 9, 8);
    if (token == "slide") return is_meter(meter, 12, 8) || is_meter(meter, 6, 8);
    if (token == "polka") return is_meter(meter, 2, 4);
    if (is_one_of({"waltz", "mazurka", "varsovienne"})) return is_meter(meter, 3, 4);
    if (token == "triple hornpipe") return is_meter(meter, 3, 2);
    if (token == "reel") return is_whole_note(meter) || is_meter(meter, 2, 4);
    // In 3/2 by a name that English and Northumbrian players share. In 2/4: measured, 74 of 213 hornpipes.
    if (token == "hornpipe") return is_whole_note(meter) || is_meter(meter, 3, 2) || is_meter(meter, 2, 4);
    if (is_one_of({"barndance", "highland fling", "schottische", "strathspey", "rant"})) return is_whole_note(meter);
    return true;
}

}  // namespace analysis
