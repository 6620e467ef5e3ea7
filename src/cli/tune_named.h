// TUNE on the command line: an id, or a title.
#pragma once

#include <optional>
#include <string>

#include "library/library.h"

namespace cli {

// The tune with that id (also one that is gone), else the one with that title or, failing that, a part of it. None:
// says so, with the titles that are near it and their ids, and is empty. Several: lists them and throws Misuse.
std::optional<tune::TuneRecord> tune_named(const collection::Collection& library, const std::string& which);

// The setting with that own id, by which it stays known whatever tune it belongs to, else the one with that title or a
// part of it; a title that several settings bear will do where `any_of_a_tune`, if they are all one tune. None: says so
// and is empty. Several: lists them and throws Misuse.
std::optional<tune::TuneRecord> setting_named(const collection::Collection& library, const std::string& which,
                                              bool any_of_a_tune);

}  // namespace cli
