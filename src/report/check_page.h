// What looks wrong in a collection, as a musician reads it: `gamut check`.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "answers/check.h"
#include "base/diagnostics.h"
#include "report/document.h"
#include "tune/oddity.h"

namespace report {

struct CheckRow {
    std::optional<std::int64_t> tune;  // its id; empty for what belongs to a file and no tune
    std::string title;                 // empty when there is none
    std::string file;
    std::uint32_t line = 1;    // from 1
    std::uint32_t column = 1;  // from 1, in code points
    tune::OddityKind kind = tune::OddityKind::unreadable;
    base::Severity severity = base::Severity::warning;
    std::string message;
    std::string advice;  // may be empty
};

struct CheckPage {
    std::vector<CheckRow> rows;  // those shown, in the order they are told within a kind
    std::map<tune::OddityKind, std::int64_t>
        counts;  // of all that match, shown or not; kinds without any may be left out
    std::int64_t tunes_checked = 0;
    std::optional<std::int64_t> files_checked;  // empty where only some tunes were asked about
    bool is_part = false;                       // not every kind or severity was asked for
    bool is_brief = false;                      // a screenful, where all would be more, and where the rest is

    std::int64_t matched() const;
    std::int64_t shown() const { return static_cast<std::int64_t>(rows.size()); }
};

// With what is to be told of each in words.
CheckPage checked_in_words(const answers::CheckAnswer& answer);

// By kind, in the order of OddityKind. In brief: of what touches the music the first places, of all else one line a
// kind and file, kScreenLines in all as long as the lines are short.
constexpr std::size_t kScreenLines = 40;  // Source: house choice: most windows show as many
Document describe(const CheckPage& page);
Document tabulate(const CheckPage& page);  // one row each, in the order given
// The shape `check` of schema/output.md, with a line end.
std::string as_json(const CheckPage& page);

}  // namespace report
