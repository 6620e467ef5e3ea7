// How a tune lies on an instrument, as a part of `gamut tune`.
#pragma once

#include <string>

#include "answers/tune.h"
#include "instruments/motion.h"
#include "report/document.h"

namespace report {

// `fifths` spells the notes of the tune as it is written.
void describe_in_hand(const answers::InHand& in_hand, int fifths, Document& document);

// `direction changes`, `string crossings`: the words of a motion.
std::string motion_in_words(instruments::Motion motion);
std::string interval_in_words(int semitones);  // `a third (4 semitones)`

}  // namespace report
