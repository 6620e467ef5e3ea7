#include "answers/filter.h"

#include "tune/player.h"

namespace answers {

std::string_view state_asked_token(StateAsked state) noexcept {
    switch (state) {
        case StateAsked::learning:
            return tune::state_token(tune::TuneState::learning);
        case StateAsked::known:
            return tune::state_token(tune::TuneState::known);
        case StateAsked::rusty:
            return tune::state_token(tune::TuneState::rusty);
        case StateAsked::none:
            break;
    }
    return "none";
}

std::optional<StateAsked> parse_state_asked(std::string_view token) noexcept {
    for (const StateAsked state : {StateAsked::learning, StateAsked::known, StateAsked::rusty, StateAsked::none})
        if (state_asked_token(state) == token) return state;
    return std::nullopt;
}

bool narrows(const Filter& filter) {
    const collection::Selection& columns = filter.columns;
    return !filter.fits.empty() || !filter.players.empty() || filter.missing || filter.state || !columns.uses.empty() ||
           columns.avoids || columns.rhythm || columns.meter || columns.tonic || columns.mode || columns.starts_on ||
           columns.ends_on || columns.span || columns.top || columns.bottom || columns.octave || columns.title ||
           columns.file || columns.tag || columns.ornaments || columns.settings;
}

}  // namespace answers
