// An evening on paper: a programme to hand out, and cards for the players' pockets.
#pragma once

#include <string>

#include "answers/evening.h"
#include "paper/lesson_pages.h"

namespace paper {

// What stands above it, as a person wrote it.
struct Occasion {
    std::string title;  // empty: `An evening of music`
    base::Date date;
    std::string players;  // who plays; may be empty
};

// Sets and their tunes in large type, without minutes.
Sheet programme(const answers::EveningAnswer& evening, const Occasion& occasion);

// A card a set, of the size of a bank card (ISO/IEC 7810 ID-1: 85.6 x 54 mm, here 85 x 54), eight to a page to be cut:
// titles, home notes, first notes, how one joins the next. A set of more than kTunesOnCard goes on on another.
Sheet set_cards(const answers::EveningAnswer& evening, const Occasion& occasion, const Looks& looks);

constexpr std::size_t kTunesOnCard = 4;

// What a class learned: notes and tunes of the lessons that were given, with their days, and a line to sign on. No
// marks, no ranking.
Sheet learned(const syllabus::Syllabus& plan, const Looks& looks);

}  // namespace paper
