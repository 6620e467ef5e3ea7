// `gamut next --review`: what to play again today.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/date.h"
#include "repertoire/review.h"
#include "report/document.h"
#include "tune/record.h"

namespace report {

struct ReviewRow {
    tune::TuneRecord record;
    repertoire::Review review;
};

struct ReviewPage {
    std::string player;
    base::Date today;
    std::vector<ReviewRow> rows;  // the least certain first
    std::size_t due = 0;          // of all
    std::vector<ReviewRow> next;  // what comes due first, when nothing is; one at most
    bool has_tunes = false;       // there is something to keep
};

Document describe_review(const ReviewPage& page);
Document tabulate_review(const ReviewPage& page);  // a row a tune
std::string review_json(const ReviewPage& page);   // the shape `review` of schema/output.md, with a line end

}  // namespace report
