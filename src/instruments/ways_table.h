// The lines of an instrument file that say how notes are made.
#pragma once

#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "instruments/toml_access.h"

namespace instruments {

struct WrittenWay {
    int midi = 60;  // as written
    Way way;
    toml::source_region where;
};

// The `ways` of a file, in its order: none where it has none. `rows` is what the file lists; any row will do when that
// is empty. `usual_source` is the source of a way without one of its own. Throws Misread.
std::vector<WrittenWay> read_ways(const toml::table& file, const std::vector<std::string>& rows,
                                  const std::string& usual_source);

// Whether two ways are the same place under the hand, so that they can make only one note.
bool same_place(const Way& a, const Way& b);

}  // namespace instruments
