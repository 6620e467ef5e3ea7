// A tune by what a person calls it: an id, or a title.
#pragma once

#include <string>

#include "answers/refusal.h"
#include "collection/collection.h"

namespace answers {

// The tune with that id (also one that is gone), else the one of which a person said so, else the one with that title
// or, failing that, a part of it. Throws Refused where there is none, with titles near it, or several.
tune::TuneRecord tune_named(const collection::Collection& collection, const std::string& which, Part part = Part::tune);

// The setting with that own id, by which it stays known whatever tune it belongs to, else the one with that title or a
// part of it; a title that several settings bear will do where `any_of_a_tune`, if they are all one tune. Throws the
// same.
tune::TuneRecord setting_named(const collection::Collection& collection, const std::string& which, bool any_of_a_tune);

}  // namespace answers
