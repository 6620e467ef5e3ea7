// Several players at once: `gamut together`.
#pragma once

#include <cstddef>
#include <string>

#include "answers/together.h"
#include "report/document.h"

namespace report {

// Tunes named for each note, and tunes listed that all can play. Source: house choice, what fits a page.
constexpr std::size_t kTitlesPerNote = 3;
constexpr std::size_t kTunesListed = 20;

Document describe(const answers::TogetherAnswer& page);
Document tabulate(const answers::TogetherAnswer& page);  // the notes, for a spreadsheet
std::string as_json(const answers::TogetherAnswer& page);

}  // namespace report
