// Tunes of the published books whose kind an edition states, with all that says so taken off them.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tune/setting.h"

namespace rhythms {

struct LabelledTune {
    std::string collection;  // as in support/books.h
    bool held_out = false;
    std::string label;      // a token of analysis/rhythm_words.h
    tune::Setting setting;  // without R: and titles
};

struct Labelled {
    std::vector<LabelledTune> tunes;
    int left_out_contradicted = 0;  // the meter is none of the label's
    int named_by_title = 0;         // of those with R:, a title names a kind that the meter suits
    int title_agrees = 0;           // of these, it is the kind of R:
    int left_out_other = 0;         // of a kind that no pattern is known for: a clog, a quickstep, a rant ...
};

// O'Neill's by R:, Aird's by R: or a title, Ryan's by R: or the ending of its title.
Labelled read_labelled(const std::filesystem::path& shared);

}  // namespace rhythms
