// Tested by reviews_test.cc.
#include "answers/reviews.h"

#include <algorithm>
#include <set>

#include "answers/player_named.h"
#include "answers/tunes_asked.h"

namespace answers {

ReviewsAnswer answer(const collection::Collection& collection, const ReviewsQuestion& question) {
    const collection::PlayerRecord player = player_named(collection, question.player);
    const TunesAsked asked(collection, question.filter);
    ReviewsAnswer answer;
    answer.player = player.player.name.text;
    answer.today = question.today;
    std::vector<tune::PlayerTune> kept = player.tunes;
    if (narrows(question.filter) || asked.instrument() != nullptr) {
        std::set<tune::TuneId> passing;
        for (const collection::TuneNotes& tune : collection.select_notes(asked.selection()).rows)
            passing.insert(tune.id);
        std::erase_if(kept, [&](const tune::PlayerTune& tune) { return !passing.contains(tune.tune); });
    }
    const repertoire::Reviews reviews = repertoire::review_all(kept, question.today);
    answer.has_tunes = !reviews.due.empty() || !reviews.later.empty();
    answer.due = reviews.due.size();
    const auto row_of = [&](const repertoire::Review& each) {
        return ReviewedTune{collection.tune_by_id(kept[each.tune].tune).value_or(tune::TuneRecord()), each};
    };
    for (std::size_t at = 0; at < std::min(reviews.due.size(), question.limit); ++at)
        answer.rows.push_back(row_of(reviews.due[at]));
    if (reviews.due.empty() && !reviews.later.empty()) answer.next.push_back(row_of(reviews.later.front()));
    return answer;
}

}  // namespace answers
