// Whether a tune is too hard for a player, beside the hardest one the player knows.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "collection/collection.h"
#include "music/note_set.h"
#include "repertoire/learning_load.h"
#include "tune/record.h"

namespace answers {

struct TooHardQuestion {
    std::string which;   // an id, a title or a part of one
    std::string player;  // by name
};

// yes: all its notes are had, and it is no harder than the hardest tune the player knows. not_yet: a ladder leads
// there. out_of_reach: a note is not on the player's instrument. unmeasured: all its notes are had, and there is no
// known tune to set beside it.
enum class CanPlay : std::uint8_t { known, yes, not_yet, out_of_reach, unmeasured };

std::string_view can_play_token(CanPlay answer) noexcept;  // `not-yet`

// A tune by what makes it hard, whoever learns it.
struct Weighed {
    tune::TuneRecord record;
    repertoire::Load load;  // for somebody who has the player's notes and knows no tune; without hand and rhythm
    int range = 0;          // semitones
    int points = 0;         // tenths, by the weights that are the program's own
};

struct TooHardAnswer {
    std::string player;
    CanPlay can_play = CanPlay::yes;
    Weighed tune;
    repertoire::Load to_learn;       // for the player, who knows some of its bars
    std::optional<Weighed> hardest;  // of the tunes the player knows; equals by title, then id
    std::int64_t known = 0;          // so many tunes the player knows and that have notes
    music::NoteSet not_on_instrument;
    std::string instrument;  // its title, where a note is not on it
};

// Throws Refused.
TooHardAnswer answer(const collection::Collection& collection, const TooHardQuestion& question);

}  // namespace answers
