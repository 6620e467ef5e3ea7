// Which tunes a person means: by what columns tell, by notes, by players and by the instrument in the hands.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "collection/selection.h"
#include "instruments/instrument.h"

namespace answers {

// none: no state at all.
enum class StateAsked : std::uint8_t { learning, known, rusty, none };

std::string_view state_asked_token(StateAsked state) noexcept;  // `learning`
std::optional<StateAsked> parse_state_asked(std::string_view token) noexcept;

// So many notes may be lacking.
struct Lacking {
    int at_most = 0;
    int at_least = 0;

    friend bool operator==(const Lacking&, const Lacking&) = default;
};

// What becomes of scraps: what proposes tunes leaves them aside, unless they are asked for.
enum class Scraps : std::uint8_t { as_any_tune, left_aside, asked_for };

// As it was asked, before any collection is looked at. What is not given does not filter.
struct Filter {
    std::vector<std::string> fits;     // NOTES or people known by their notes, see answers/notes_asked.h
    std::vector<std::string> players;  // by name, in any case, or a class of them; each once
    std::shared_ptr<const instruments::Instrument> instrument;  // in the hands
    std::optional<std::string> instrument_file;                 // that describes it, where it is one of the user's own
    std::optional<int> grade;  // instruments::kEasiestGrade to kHardestGrade: no harder notes of an instrument
    std::optional<Lacking> missing;
    std::optional<StateAsked> state;
    // Whom the question itself names, where neither an instrument nor players are given: the grade is one of this
    // player's instrument, the state is this one's.
    std::optional<std::string> asker;
    Scraps scraps = Scraps::as_any_tune;
    collection::Selection columns;  // all else; its fits, missing, state, scraps, nearest_to and goes stay empty
};

// Something is given beside an instrument and its grades.
bool narrows(const Filter& filter);

}  // namespace answers
