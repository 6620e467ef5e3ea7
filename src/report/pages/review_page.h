// `gamut next --review`: what to play again today.
#pragma once

#include <string>

#include "answers/reviews.h"
#include "report/document.h"

namespace report {

Document describe(const answers::ReviewsAnswer& page);
Document tabulate(const answers::ReviewsAnswer& page);    // a row a tune
std::string as_json(const answers::ReviewsAnswer& page);  // the shape `review` of schema/output.md, with a line end

}  // namespace report
