// An instrument by what a person calls it.
#pragma once

#include <string>

#include "answers/refusal.h"
#include "instruments/instrument.h"

namespace answers {

// One that comes with the program, by its id or the beginning of one. Throws Refused of `part`.
const instruments::Instrument& instrument_named(const std::string& name, Part part = Part::instrument);

}  // namespace answers
