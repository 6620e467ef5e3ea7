// What looks wrong in a setting: `gamut check` tells of it, nothing is ever changed.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "base/span.h"

namespace tune {

// In the order a page tells of them: first what touches notes, keys, bars and copies, then the rest.
enum class OddityKind : std::uint8_t {
    unreadable,      // something written is no ABC: left out, or guessed
    key_label,       // K: disagrees with the notes
    bar_length,      // a bar is longer or shorter than the meter asks for
    open_repeat,     // a repeat or an ending lacks its other half
    twin,            // another setting is probably the same
    out_of_reach,    // notes outside what was asked for
    encoding,        // letters of titles and words may be wrong
    rhythm_meter,    // R: does not go with M:
    missing_field,   // no title, number, meter or key
    no_music,        // a header without a note
    twice_numbered,  // X: stands twice in one file
    part_length,     // a part of a dance tune has an unusual number of bars
    outdated         // read as it was meant, written as ABC is no longer written
};

constexpr std::array<OddityKind, 13> kOddityKinds{
    OddityKind::unreadable,    OddityKind::key_label,    OddityKind::bar_length,     OddityKind::open_repeat,
    OddityKind::twin,          OddityKind::out_of_reach, OddityKind::encoding,       OddityKind::rhythm_meter,
    OddityKind::missing_field, OddityKind::no_music,     OddityKind::twice_numbered, OddityKind::part_length,
    OddityKind::outdated};

// Whether what is played may be wrong, or a tune stand twice: told place by place, the rest in one line a file.
constexpr bool touches_music(OddityKind kind) noexcept { return kind <= OddityKind::out_of_reach; }

// `bar-length`, ...: used by SQL, JSON, CSV and the command line alike.
std::string_view oddity_token(OddityKind kind) noexcept;
std::optional<OddityKind> parse_oddity_kind(std::string_view token) noexcept;

// `Bars that do not add up`: the heading of a page.
std::string_view oddity_heading(OddityKind kind) noexcept;

// One line on what to do, for an oddity that has no better of its own.
std::string_view oddity_advice(OddityKind kind) noexcept;

// For a finding of the reader, by its code (`abc-...`). Unreadable for a code that is not known.
OddityKind kind_of_code(std::string_view code) noexcept;
std::vector<std::string_view> codes_with_kind();  // those that are known

struct Oddity {
    OddityKind kind = OddityKind::unreadable;
    base::Severity severity = base::Severity::warning;
    base::Span where;     // in the source the setting was read from
    std::string message;  // a sentence: what is there
    std::string advice;   // a sentence: what to do

    friend bool operator==(const Oddity&, const Oddity&) = default;
};

}  // namespace tune
