// Tunes named in one loosely typed line: "kettle, nine eels; wet gangplank".
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "library/library.h"

namespace cli {

struct TitlesSaid {
    std::vector<tune::TuneId> tunes;                              // each once, in the order named
    bool are_all_sure = true;                                     // every title named one tune, or the person chose
    bool names_any = false;                                       // there was a title to read at all
    std::vector<std::pair<std::string, tune::TuneId>> settled{};  // what was written, where the person chose
};

// An id stands for its tune too. What is doubtful is asked once, of all such titles together, when a person sits at the
// terminal; else it is listed, and left out. Corrected spellings, titles that are unknown and answers that are none are
// told.
TitlesSaid titles_said(const collection::Collection& library, const std::string& written);

// Keeps what the person chose as an alias of the tune, so that nobody asks again, and tells it. No library may be open.
void keep_settled(const std::filesystem::path& file, const TitlesSaid& said);

}  // namespace cli
