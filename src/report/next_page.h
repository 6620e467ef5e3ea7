// `gamut next`: what to learn next, and why.
#pragma once

#include <string>

#include "answers/next.h"
#include "report/document.h"
#include "report/listing.h"

namespace report {

// Steps of more notes are not proposed in one go. Source: common practice, no source: notes often come in twos.
constexpr int kMostNotesAtOnce = 2;

using NextPage = answers::NextAnswer;

Document describe(const NextPage& page);
Document tabulate(const NextPage& page);    // a row a tune
std::string as_json(const NextPage& page);  // the shape `next` of schema/output.md, with a line end

}  // namespace report
