// How a tune lies on an instrument, as a part of `gamut tune`.
#pragma once

#include <optional>
#include <string>

#include "hands/handling.h"
#include "report/document.h"

namespace report {

struct InHand {
    // Null where only notes were given; must outlive this.
    const instruments::Instrument* instrument = nullptr;
    std::string notes;         // as given, where the player has not all that the instrument has
    hands::Handling handling;  // without an instrument only its near miss
};

// `fifths` spells the notes of the tune as it is written.
void describe_in_hand(const InHand& in_hand, int fifths, Document& document);

// `direction changes`, `string crossings`: the words of a motion.
std::string motion_in_words(instruments::Motion motion);
std::string interval_in_words(int semitones);  // `a third (4 semitones)`

}  // namespace report
