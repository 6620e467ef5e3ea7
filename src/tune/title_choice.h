// What a person answers when asked which tunes are meant: `1a 2c`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tune/title_match.h"

namespace tune {

struct TitleChoice {
    std::vector<std::optional<TuneId>> chosen;  // of each question
    std::vector<std::string> not_understood;    // as written
    std::vector<std::string> second;            // another tune for a question answered before: as written
};

// Candidates by the number of their question, from 1, and their letter, in any case, together or apart (`1a`, `1 a`);
// by the letter alone where there is one question; by the id of their tune, for the first question it answers that is
// still open. Blanks, commas and semicolons part them. The first answer to a question counts.
TitleChoice read_title_choice(std::string_view answer, const std::vector<TitleMatch>& questions);

// `b`, `1a 2b`: an answer to these questions, of which there is one at least.
std::string example_of_choice(const std::vector<TitleMatch>& questions);

}  // namespace tune
