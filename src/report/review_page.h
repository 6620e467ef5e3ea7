// `gamut next --review`: what to play again today.
#pragma once

#include <string>

#include "answers/reviews.h"
#include "report/document.h"

namespace report {

using ReviewPage = answers::ReviewsAnswer;
using ReviewRow = answers::ReviewedTune;

Document describe(const ReviewPage& page);
Document tabulate(const ReviewPage& page);    // a row a tune
std::string as_json(const ReviewPage& page);  // the shape `review` of schema/output.md, with a line end

}  // namespace report
