// TUNE on the command line: an id, or a title.
#pragma once

#include <optional>
#include <string>

#include "library/library.h"

namespace cli {

// The tune with that id (also one that is gone), else the one with that title or, failing that, a part of it. None:
// says so, with the titles that are near it and their ids, and is empty. Several: lists them and throws Misuse.
std::optional<tune::TuneRecord> tune_named(const library::Library& library, const std::string& which);

}  // namespace cli
