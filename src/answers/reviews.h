// What a player should play again on a day.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "base/date.h"
#include "collection/collection.h"
#include "repertoire/review.h"
#include "tune/record.h"

namespace answers {

// Tunes at most, unless more or fewer are asked for. Source: house choice; a few, as a warm-up.
constexpr std::size_t kReviewsShown = 5;

struct ReviewsQuestion {
    Filter filter;       // the asker is the player
    std::string player;  // by name
    base::Date today;
    std::size_t limit = kReviewsShown;
};

struct ReviewedTune {
    tune::TuneRecord record;
    repertoire::Review review;
};

struct ReviewsAnswer {
    std::string player;
    base::Date today;
    std::vector<ReviewedTune> rows;  // the least certain first
    std::size_t due = 0;             // of all
    std::vector<ReviewedTune> next;  // what comes due first, when nothing is; one at most
    bool has_tunes = false;          // there is something to keep
};

// Throws Refused.
ReviewsAnswer answer(const collection::Collection& collection, const ReviewsQuestion& question);

}  // namespace answers
