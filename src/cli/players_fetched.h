// What a page about players needs, fetched from the library.
#pragma once

#include <vector>

#include "library/library.h"
#include "repertoire/players_file.h"
#include "report/player_page.h"

namespace cli {

report::PlayerPage page_of(const library::Library& library, const library::PlayerRecord& record);

// As another library will understand it.
repertoire::FiledPlayer filed(const library::Library& library, const library::PlayerRecord& record);

// The tune here that a filed tune means: by its id with the same title, else by its title, else by its file and number;
// nothing where none or several are meant.
std::optional<tune::TuneId> tune_meant(const library::Library& library, const repertoire::FiledTune& filed);

}  // namespace cli
