#include "repertoire/review.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace repertoire {

namespace {

int days_from(base::Date from, base::Date to) { return static_cast<int>((to - from).count()); }

// See kKnownDueADay; those given first come first.
void spread_known(std::vector<Review>& reviews, std::span<const tune::PlayerTune> tunes) {
    std::map<base::Date, std::vector<Review*>> said_on;
    for (Review& review : reviews)
        if (review.gap == kGapOfKnown && !review.is_rusty &&
            tunes[review.tune].events.back().event == tune::PlayerEvent::known)
            said_on[review.last].push_back(&review);
    constexpr std::size_t kDays = kReviewGaps[kGapOfKnown];
    for (const auto& [day, together] : said_on) {
        const std::size_t a_day = std::max(kKnownDueADay, (together.size() + kDays - 1) / kDays);
        const std::size_t last = (together.size() - 1) / a_day;
        for (std::size_t at = 0; at < together.size(); ++at)
            together[at]->due -= std::chrono::days(static_cast<int>(last - at / a_day));
    }
}

}  // namespace

std::optional<Review> review_of(const tune::PlayerTune& tune, base::Date today) {
    std::optional<Review> review;
    for (const tune::DatedEvent& event : tune.events) {
        if (event.day > today) break;
        const std::optional<Review> before = review;
        const auto begin_at = [&](std::size_t gap) {
            review = Review{};
            review->gap = gap;
            review->last = event.day;
        };
        switch (event.event) {
            case tune::PlayerEvent::learning:
                begin_at(0);
                break;
            case tune::PlayerEvent::known:
                begin_at(before ? before->gap : kGapOfKnown);
                break;
            case tune::PlayerEvent::rusty:
                begin_at(0);
                review->is_rusty = true;
                if (before) review->last = before->last;  // saying so is not playing it
                break;
            case tune::PlayerEvent::forgotten:
                review.reset();
                break;
            case tune::PlayerEvent::shaky:
                if (!before) break;
                begin_at(0);
                review->is_shaky = true;
                break;
            case tune::PlayerEvent::played:
                if (!before) break;
                begin_at(before->gap);
                if (2 * days_from(before->last, event.day) >= kReviewGaps[before->gap])
                    review->gap = std::min(before->gap + 1, kReviewGaps.size() - 1);
                break;
        }
    }
    if (!review) return std::nullopt;
    review->due = review->is_rusty ? review->last : review->last + std::chrono::days(kReviewGaps[review->gap]);
    review->days_since = days_from(review->last, today);
    review->is_rusty = review->is_rusty || review->days_since >= kRustyAfterDays;
    return review;
}

Reviews review_all(std::span<const tune::PlayerTune> tunes, base::Date today) {
    std::vector<Review> all;
    for (std::size_t at = 0; at < tunes.size(); ++at) {
        std::optional<Review> review = review_of(tunes[at], today);
        if (!review) continue;
        review->tune = at;
        all.push_back(*review);
    }
    spread_known(all, tunes);
    Reviews reviews;
    for (const Review& review : all) (review.due <= today ? reviews.due : reviews.later).push_back(review);
    const auto order = [](const Review& one) {
        return std::tuple(!one.is_shaky, !one.is_rusty, -one.share(), one.last);
    };
    std::stable_sort(reviews.due.begin(), reviews.due.end(),
                     [&](const Review& one, const Review& other) { return order(one) < order(other); });
    std::stable_sort(reviews.later.begin(), reviews.later.end(),
                     [](const Review& one, const Review& other) { return one.due < other.due; });
    return reviews;
}

}  // namespace repertoire
