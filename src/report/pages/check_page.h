// What looks wrong in a collection, as a musician reads it: `gamut check`.
#pragma once

#include <cstddef>
#include <string>

#include "answers/check.h"
#include "report/document.h"

namespace report {

// An answer, worded, and how much of it is to be told.
struct CheckPage {
    answers::CheckAnswer answer;  // a message and maybe an advice in every row
    bool is_part = false;         // not every kind or severity was asked for
    bool is_brief = false;        // a screenful, where all would be more, and where the rest is
};

// With what is to be said of each row.
CheckPage checked_in_words(answers::CheckAnswer answer);

// By kind, in the order of OddityKind. In brief: of what touches the music the first places, of all else one line a
// kind and file, kScreenLines in all as long as the lines are short.
constexpr std::size_t kScreenLines = 40;  // Source: house choice: most windows show as many
Document describe(const CheckPage& page);
Document tabulate(const CheckPage& page);  // one row each, in the order given
// The shape `check` of schema/output.md, with a line end.
std::string as_json(const CheckPage& page);

}  // namespace report
