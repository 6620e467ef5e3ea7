// Tested by follow_test.cc.
#include "answers/follow.h"

#include <algorithm>

#include "answers/tune_named.h"
#include "answers/tune_shapes.h"
#include "answers/tunes_asked.h"

namespace answers {

FollowAnswer answer(const collection::Collection& collection, const FollowQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    collection::Selection selection = asked.selection();
    selection.limit.reset();
    const tune::TuneRecord record = tune_named(collection, question.first, Part::after);
    const auto outline = collection.outline_of(record.setting);
    const auto first = outline ? repertoire::shape_of(record, *outline) : std::nullopt;
    if (!first) throw Refused({Part::after, Reason::nothing_to_follow, question.first});
    FollowAnswer answer;
    answer.first = *first;
    answer.left_out_notes = asked.left_out();
    const collection::Answer found = collection.select_tunes(selection);
    answer.scraps = found.back_without(collection::FilterBy::scraps);
    answer.left_out = found.left_out - answer.scraps;
    answer.why = asked.sieves_of(found);
    const std::vector<repertoire::TuneShape> candidates = shapes_of(collection, found.rows);
    const repertoire::Followers followers = repertoire::rank_followers(answer.first, candidates);
    answer.matched = static_cast<std::int64_t>(followers.best.size());
    answer.other_rhythm = followers.other_rhythm;
    answer.same_opening = followers.same_opening;
    for (std::size_t at = 0; at < std::min(question.limit, followers.best.size()); ++at)
        answer.rows.push_back({candidates[followers.best[at].tune], followers.best[at].follow});
    return answer;
}

}  // namespace answers
