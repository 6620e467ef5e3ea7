// A name that stands in what was said of other things than its player: found there, and erased.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "people/fold.h"
#include "tune/player.h"

namespace library {

// Both throw base::Failure as all_said does; the second one also as Marks does.

// As people::entries_saying has it, and of every other term the sayings whose text `without` changes.
std::vector<people::Entry> entries_saying(const std::filesystem::path& file, const tune::PlayerName& name,
                                          const std::function<std::string(const std::string& text)>& without);

// The same, with their words erased for ever: tags and kinds are taken away, terms of that name forgotten, the others
// go on as `without` gives them, and a tune that was unwanted stays so with no reason.
std::vector<people::Entry> erase_saying(const std::filesystem::path& file, const tune::PlayerName& name,
                                        const std::function<std::string(const std::string& text)>& without,
                                        std::optional<base::Date> day);

}  // namespace library
