// A tune bar by bar, with a line of buttons, fingers or holes under the notes.
#pragma once

#include <string>

#include "hands/cheapest_way.h"
#include "report/document.h"

namespace report {

struct HandsLine {
    std::string picture;  // lines of text
    std::string
        like_others;  // `5 as 1, 6 as 2`: bars with the notes and ways of an earlier one, left out of the picture
};

// Several bars to a line of at most `columns`, at least one. `fifths` spells the notes.
HandsLine hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                     std::size_t columns);

// The picture, and below it the bars left out of it.
void describe_hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                         Document& document);

}  // namespace report
