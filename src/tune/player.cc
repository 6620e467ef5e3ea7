// Tested by player_test.cc.
#include "tune/player.h"

#include <algorithm>
#include <array>

#include "base/utf8.h"
#include "tune/tag.h"

namespace tune {

namespace {

struct EventWord {
    PlayerEvent event;
    std::string_view token;
    std::optional<TuneState> into;  // the state a tune is in from then on; none where the event does not say
};

constexpr std::array<EventWord, 6> kEvents{{
    {PlayerEvent::learning, "learning", TuneState::learning},
    {PlayerEvent::known, "known", TuneState::known},
    {PlayerEvent::rusty, "rusty", TuneState::rusty},
    {PlayerEvent::forgotten, "forgotten", std::nullopt},
    {PlayerEvent::played, "played", std::nullopt},
    {PlayerEvent::shaky, "shaky", std::nullopt},
}};

constexpr std::string_view kAsGoodAsBlank = "-,&.";

const EventWord& word_of(PlayerEvent event) noexcept { return kEvents[static_cast<std::size_t>(event)]; }

const DatedEvent* last_saying_state(const PlayerTune& tune) noexcept {
    const auto last = std::find_if(tune.events.rbegin(), tune.events.rend(),
                                   [](const DatedEvent& dated) { return says_state(dated.event); });
    return last == tune.events.rend() ? nullptr : &*last;
}

}  // namespace

PlayerName read_player_name(std::string_view written) {
    if (!base::is_utf8(written)) throw PlayerNameFault("a player's name must be UTF-8");
    if (base::printable(written) != written)
        throw PlayerNameFault("a player's name cannot have control characters in it");
    PlayerName name{base::without_needless_blanks(base::composed(written)), fold_player_name(written)};
    if (name.text.empty()) throw PlayerNameFault("a player's name cannot be empty");
    if (name.folded.empty()) throw PlayerNameFault("a player's name needs more than \"" + name.text + "\"");
    if (base::code_points_in(name.text) > kMaxNameCharacters)
        throw PlayerNameFault("a player's name has at most " + std::to_string(kMaxNameCharacters) +
                              " characters, not " + std::to_string(base::code_points_in(name.text)));
    return name;
}

std::string fold_player_name(std::string_view text) {
    std::string folded = fold_tag(text);
    for (char& c : folded)
        if (kAsGoodAsBlank.find(c) != std::string_view::npos) c = ' ';
    return base::without_needless_blanks(folded);
}

std::string_view state_token(TuneState state) noexcept {
    for (const EventWord& word : kEvents)
        if (word.into == state) return word.token;
    return "";
}

std::optional<TuneState> parse_state(std::string_view token) noexcept {
    for (const EventWord& word : kEvents)
        if (word.into && word.token == token) return word.into;
    return std::nullopt;
}

std::string_view event_token(PlayerEvent event) noexcept { return word_of(event).token; }

std::optional<PlayerEvent> parse_event(std::string_view token) noexcept {
    for (const EventWord& word : kEvents)
        if (word.token == token) return word.event;
    return std::nullopt;
}

bool says_state(PlayerEvent event) noexcept {
    return word_of(event).into.has_value() || event == PlayerEvent::forgotten;
}

bool is_sayable(base::Date day) noexcept {
    const int year = static_cast<int>(std::chrono::year_month_day(day).year());
    return year >= kFirstYear && year <= kLastYear;
}

std::optional<TuneState> state_of(const PlayerTune& tune) noexcept {
    const DatedEvent* last = last_saying_state(tune);
    return last ? word_of(last->event).into : std::nullopt;
}

bool can_enter(const PlayerTune& tune, base::Date day) noexcept {
    const DatedEvent* last = last_saying_state(tune);
    return last == nullptr || (last->event == PlayerEvent::forgotten && last->day <= day);
}

std::optional<base::Date> since(const PlayerTune& tune) noexcept {
    const DatedEvent* last = last_saying_state(tune);
    return last && word_of(last->event).into ? std::optional(last->day) : std::nullopt;
}

std::optional<base::Date> taken_up(const PlayerTune& tune) noexcept {
    const auto forgotten = std::find_if(tune.events.rbegin(), tune.events.rend(),
                                        [](const DatedEvent& dated) { return dated.event == PlayerEvent::forgotten; });
    const auto first = std::find_if(forgotten.base(), tune.events.end(), [](const DatedEvent& dated) {
        return dated.event == PlayerEvent::learning || dated.event == PlayerEvent::known;
    });
    return first == tune.events.end() ? std::nullopt : std::optional(first->day);
}

std::optional<base::Date> last_played(const PlayerTune& tune) noexcept {
    const auto last = std::find_if(tune.events.rbegin(), tune.events.rend(), [](const DatedEvent& dated) {
        return dated.event == PlayerEvent::played || dated.event == PlayerEvent::shaky ||
               dated.event == PlayerEvent::known;
    });
    return last == tune.events.rend() ? std::nullopt : std::optional(last->day);
}

}  // namespace tune
