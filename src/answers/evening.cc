// Tested by evening_test.cc.
#include "answers/evening.h"

#include <algorithm>
#include <set>

#include "answers/tune_named.h"
#include "answers/tune_shapes.h"
#include "answers/tunes_asked.h"
#include "answers/twins.h"

namespace answers {

namespace {

std::int64_t number_of(std::size_t tunes) { return static_cast<std::int64_t>(tunes); }

// Of tunes that are probably one, and may all be in the list, only the first by title stays. How many go.
std::int64_t leave_out_doubles(const collection::Collection& collection, const repertoire::EveningGoal& goal,
                               std::vector<repertoire::TuneShape>& tunes) {
    std::vector<const repertoire::TuneShape*> usable;
    for (const repertoire::TuneShape& tune : tunes)
        if (repertoire::seconds_of(tune, goal) && (!goal.for_dance || repertoire::has_whole_parts(tune)))
            usable.push_back(&tune);
    std::sort(usable.begin(), usable.end(),
              [](const auto* one, const auto* other) { return repertoire::comes_before(*one, *other); });
    std::vector<tune::TuneId> ids;
    for (const repertoire::TuneShape* tune : usable) ids.push_back(tune->id);
    if (ids.empty()) return 0;
    const std::set<tune::TuneId> doubles = probable_doubles(collection, ids);
    return number_of(
        std::erase_if(tunes, [&](const repertoire::TuneShape& tune) { return doubles.contains(tune.id); }));
}

}  // namespace

EveningAnswer answer(const collection::Collection& collection, const EveningQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    const collection::Answer found = collection.select_tunes(asked.selection());
    EveningAnswer answer;
    answer.goal = question.goal;
    answer.left_out_notes = asked.left_out();
    answer.scraps = found.back_without(collection::FilterBy::scraps);
    answer.left_out = found.left_out - answer.scraps;
    answer.why = asked.sieves_of(found);
    answer.tunes = shapes_of(collection, found.rows);
    std::set<tune::TuneId> unwanted;
    for (const std::string& which : question.without) unwanted.insert(tune_named(collection, which, Part::without).id);
    answer.unwanted = number_of(
        std::erase_if(answer.tunes, [&](const repertoire::TuneShape& tune) { return unwanted.contains(tune.id); }));
    if (question.filter.columns.rhythm)
        answer.other_meter = number_of(std::erase_if(
            answer.tunes, [](const repertoire::TuneShape& tune) { return !tune.rhythm_contradicted.empty(); }));
    answer.doubles = leave_out_doubles(collection, question.goal, answer.tunes);
    answer.evening = repertoire::plan_evening(answer.tunes, question.goal);
    return answer;
}

}  // namespace answers
