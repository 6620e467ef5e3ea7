// Tested by macro_test.cc and the conformance rows of section 9.
#include "abc/macro.h"

#include <algorithm>

#include "abc/characters.h"
#include "abc/scale_step.h"

namespace abc {

namespace {

constexpr std::size_t kMaxTarget = 31;        // Source: ABC 2.1, section 9
constexpr std::size_t kMaxReplacement = 200;  // Source: ABC 2.1, section 9

// A match must end where the note's length ends: `~G3` is not found in `~G3/2`.
bool goes_on(std::string_view rest) {
    return !rest.empty() && (is_digit(rest[0]) || rest[0] == '/' || rest[0] == ',' || rest[0] == '\'');
}

struct Match {
    std::size_t length = 0;
    std::string replacement;
};

std::optional<Match> match_static(std::string_view rest, const Macro& macro) {
    if (!rest.starts_with(macro.target) || goes_on(rest.substr(macro.target.size()))) return std::nullopt;
    return Match{macro.target.size(), macro.replacement};
}

std::optional<Match> match_transposing(std::string_view rest, const Macro& macro) {
    const std::size_t place = macro.target.find('n');
    const std::string_view target = macro.target;
    if (!rest.starts_with(target.substr(0, place))) return std::nullopt;
    std::size_t at = place;
    if (at >= rest.size() || !is_note_letter(rest[at])) return std::nullopt;
    const char letter = rest[at++];
    const std::size_t marks_begin = at;
    while (at < rest.size() && (rest[at] == ',' || rest[at] == '\'') && at - marks_begin < 8) ++at;
    const std::string_view length = target.substr(place + 1);
    const int step = scale_step(letter, rest.substr(marks_begin, at - marks_begin));
    if (!rest.substr(at).starts_with(length) || goes_on(rest.substr(at + length.size()))) return std::nullopt;
    Match match{at + length.size(), {}};
    char quote = '\0';  // letters inside "..." and !...! are text
    for (const char c : macro.replacement) {
        if (quote == '\0' && c >= 'h' && c <= 'z') {
            match.replacement += written_step(step + (c - 'n'));
            continue;
        }
        if (quote == c)
            quote = '\0';
        else if (quote == '\0' && (c == '"' || c == '!'))
            quote = c;
        match.replacement += c;
    }
    return match;
}

// Bytes at `at` that no macro may touch: quoted text, an inline field.
std::size_t protected_length(std::string_view line, std::size_t at) {
    if (line[at] == '"') {
        const std::size_t end = line.find('"', at + 1);
        return (end == std::string_view::npos ? line.size() : end + 1) - at;
    }
    if (line[at] == '[' && at + 2 < line.size() && is_letter(line[at + 1]) && line[at + 2] == ':') {
        const std::size_t end = line.find(']', at);
        return (end == std::string_view::npos ? line.size() : end + 1) - at;
    }
    return 0;
}

}  // namespace

std::optional<Macro> read_macro(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) return std::nullopt;
    Macro macro{std::string(trim(text.substr(0, equals))), std::string(trim(text.substr(equals + 1)))};
    if (macro.target.empty() || macro.replacement.empty() || macro.target.size() > kMaxTarget ||
        macro.replacement.size() > kMaxReplacement)
        return std::nullopt;
    const std::size_t n = macro.target.find('n');
    if (n != std::string::npos && !std::all_of(macro.target.begin() + static_cast<std::ptrdiff_t>(n) + 1,
                                               macro.target.end(), [](char c) { return is_digit(c) || c == '/'; }))
        return std::nullopt;
    return macro;
}

void set_macro(std::vector<Macro>& macros, Macro macro) {
    const auto same =
        std::find_if(macros.begin(), macros.end(), [&](const Macro& old) { return old.target == macro.target; });
    if (same != macros.end())
        *same = std::move(macro);
    else
        macros.push_back(std::move(macro));
}

std::optional<ExpandedLine> expand_macros(std::string_view line, const std::vector<Macro>& macros) {
    ExpandedLine expanded;
    bool any = false;
    const auto copy = [&](std::size_t from, std::size_t length) {
        for (std::size_t at = from; at < from + length; ++at) {
            expanded.text += line[at];
            expanded.places.push_back(static_cast<std::uint32_t>(at));
        }
    };
    for (std::size_t at = 0; at < line.size();) {
        if (const std::size_t length = protected_length(line, at); length > 0) {
            copy(at, length);
            at += length;
            continue;
        }
        std::optional<Match> found;
        for (const Macro& macro : macros) {
            if (expanded.text.size() >= kMaxExpandedBytes) break;
            found = macro.is_transposing() ? match_transposing(line.substr(at), macro)
                                           : match_static(line.substr(at), macro);
            if (found) break;
        }
        if (!found) {
            copy(at, 1);
            ++at;
            continue;
        }
        any = true;
        const auto begin = static_cast<std::uint32_t>(expanded.text.size());
        const auto length = static_cast<std::uint32_t>(found->replacement.size());
        expanded.text += found->replacement;
        expanded.places.insert(expanded.places.end(), length, static_cast<std::uint32_t>(at));
        expanded.uses.push_back({{static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + found->length)},
                                 {begin, begin + length}});
        at += found->length;
    }
    if (!any) return std::nullopt;
    return expanded;
}

}  // namespace abc
