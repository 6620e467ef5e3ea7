// Which tunes to play again today, so that they are kept.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "base/date.h"
#include "tune/player.h"

namespace repertoire {

// Days from one time a tune is played to the next; each time it goes well the next gap is taken, and the last one
// stays. Source: common practice, no source (the next day, 3 days, a week, two weeks, a month, then every two to three
// months). What studies say of such gaps, none of them about tunes: a night between two sessions helps, minutes do not
// (Simmons, Journal of Research in Music Education 59:4, 2012); growing gaps end as well as equal ones and hold better
// on the way (Kang and others, Psychonomic Bulletin & Review, 2014); the best single gap before a single day on which
// it is wanted is a fifth to two fifths of a week, and a smaller share of longer (Cepeda and others, Psychological
// Science 19, 2008), which no first gap here is and which says nothing of a row of gaps.
constexpr std::array<int, 6> kReviewGaps{1, 3, 7, 14, 30, 75};

// Where a tune that is said to be known, without having been learnt here, starts. Source: house choice; its owner plays
// it already.
constexpr std::size_t kGapOfKnown = 4;

// Of tunes that were said to be known on one day, and not played since, no more come due on one day, as far as the gap
// has days: the others come on days before. Source: house choice; what gamut next --review lists.
constexpr std::size_t kKnownDueADay = 5;

// A tune not played for so long is to be counted as rusty. Source: common practice, no source.
constexpr int kRustyAfterDays = 180;

struct Review {
    std::size_t tune = 0;  // into what was given
    base::Date last;       // played, or taken up
    std::size_t gap = 0;   // into kReviewGaps
    base::Date due;
    int days_since = 0;     // from `last` to today, 0 or more
    bool is_shaky = false;  // the last time it did not hold
    bool is_rusty = false;  // said to be, or not played for kRustyAfterDays

    // How much of its gap is over.
    double share() const { return static_cast<double>(days_since) / kReviewGaps[gap]; }
};

// How a tune stands on a day by what happened until then; nothing for one the player does not learn, know or once knew.
// A tune that went well moves on by one gap, if at least half of the gap was over; one that did not hold, or was said
// to be rusty, begins again; a rusty one is due at once.
std::optional<Review> review_of(const tune::PlayerTune& tune, base::Date today);

struct Reviews {
    std::vector<Review>
        due;  // least certain first: shaky, then rusty ones, then by share; equals by age, then as given
    std::vector<Review> later;  // by day due, then as given
};

Reviews review_all(std::span<const tune::PlayerTune> tunes, base::Date today);

}  // namespace repertoire
