// `gamut next`: what to learn next, and why.
#pragma once

#include <string>

#include "answers/next.h"
#include "report/document.h"
#include "report/pages/listing.h"

namespace report {

// Steps of more notes are not proposed in one go. Source: common practice, no source: notes often come in twos.
constexpr int kMostNotesAtOnce = 2;

Document describe(const answers::NextAnswer& page);
Document tabulate(const answers::NextAnswer& page);    // a row a tune
std::string as_json(const answers::NextAnswer& page);  // the shape `next` of schema/output.md, with a line end

}  // namespace report
