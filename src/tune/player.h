// Players and what they say of tunes: the words of `gamut player`.
#pragma once

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "music/note_set.h"
#include "tune/record.h"

namespace tune {

struct PlayerId {
    std::int64_t value = 0;
    friend auto operator<=>(const PlayerId&, const PlayerId&) = default;
};

// Why a text is no player's name, in one sentence for the person who wrote it.
class PlayerNameFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// In code points. Source: house choice; a name has to fit a column.
constexpr std::size_t kMaxNameCharacters = 60;

struct PlayerName {
    std::string text;    // as shown: UTF-8, normal form C, blanks around it left out, runs of blanks made one
    std::string folded;  // as compared, by fold_player_name; never empty

    friend bool operator==(const PlayerName&, const PlayerName&) = default;
};

// Throws PlayerNameFault for a text with nothing to read in it, one that is too long, has control characters or is not
// UTF-8. Quotes, apostrophes and signs are part of a name.
PlayerName read_player_name(std::string_view written);

// For comparing: case and accents do not count, and what parts or joins notes (`,` `&` `..` and the `-` before a note)
// is as good as a blank, so that `@Una-Maria` among notes says the name of "Una Maria" and of nobody else. A text of
// nothing else folds to an empty one.
std::string fold_player_name(std::string_view text);

struct Player {
    PlayerId id;
    PlayerName name;
    std::optional<std::string> instrument;  // the id of one that comes with the program
    // As said; empty when only the tunes say which. Notes of tunes the player knows come to these (see
    // repertoire/notes_at_hand.h).
    std::optional<music::NoteSet> notes;

    friend bool operator==(const Player&, const Player&) = default;
};

// learning: at work on it. known: can play it in company. rusty: could once.
enum class TuneState : std::uint8_t { learning, known, rusty };

std::string_view state_token(TuneState state) noexcept;
std::optional<TuneState> parse_state(std::string_view token) noexcept;

// What happened to a tune of a player on a day. learning, known, rusty: it came into that state; forgotten: it is in no
// state any longer. played: it went well; shaky: it was played and did not hold.
enum class PlayerEvent : std::uint8_t { learning, known, rusty, forgotten, played, shaky };

std::string_view event_token(PlayerEvent event) noexcept;
std::optional<PlayerEvent> parse_event(std::string_view token) noexcept;

// Whether it decides in which state a tune is; played and shaky do not.
bool says_state(PlayerEvent event) noexcept;

// Years of days that can be said, the last included: a day more is still one that can be written, and so is the day a
// tune is due after the longest gap. Source: house choice.
constexpr int kFirstYear = 1000;
constexpr int kLastYear = 9998;

bool is_sayable(base::Date day) noexcept;

struct DatedEvent {
    base::Date day;
    PlayerEvent event = PlayerEvent::played;

    friend bool operator==(const DatedEvent&, const DatedEvent&) = default;
};

// One tune as one player has it.
struct PlayerTune {
    TuneId tune;
    std::vector<DatedEvent> events;       // by day, those of a day in the order they were said
    bool wished = false;                  // wants to learn it
    std::optional<std::string> excluded;  // will not learn it: why, in the player's words, maybe empty

    friend bool operator==(const PlayerTune&, const PlayerTune&) = default;
};

// By the last event that says so; empty when none does.
std::optional<TuneState> state_of(const PlayerTune& tune) noexcept;
// Whether a state said of that day would be its state: it is in none, and was not forgotten later than that.
bool can_enter(const PlayerTune& tune, base::Date day) noexcept;
// The day it came into its state.
std::optional<base::Date> since(const PlayerTune& tune) noexcept;
// The day it was first taken up: of the first event since it was last forgotten that says learning or known. Empty for
// a tune in no state, and for one that was only ever said to be rusty.
std::optional<base::Date> taken_up(const PlayerTune& tune) noexcept;
// The last day it was played, well or not; a day it was said to be known counts as played.
std::optional<base::Date> last_played(const PlayerTune& tune) noexcept;

}  // namespace tune
