// What a page about players needs, fetched from the library.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "library/library.h"
#include "repertoire/players_here.h"
#include "report/player_page.h"

namespace cli {

report::PlayerPage page_of(const library::Library& library, const library::PlayerRecord& record);

// As another library will understand it.
repertoire::FiledPlayer filed(const library::Library& library, const library::PlayerRecord& record);

// The tune here that a filed tune means, by repertoire::tune_meant.
std::optional<repertoire::TuneMeant> tune_meant(const library::Library& library, const repertoire::FiledTune& filed);

report::PlayerHistory history_of(const library::Library& library, const tune::Player& player);

// `the terms Thursdays, Tuesdays`: those that are kept and were asked for with `--for` this player; empty for none.
std::string terms_of(const std::filesystem::path& file, const tune::PlayerName& name);

// They are asked for with the new name from now on.
void rename_in_terms(const std::filesystem::path& file, const tune::PlayerName& from, const tune::PlayerName& to);

}  // namespace cli
