// Tested by kin_test.cc.
#include "answers/kin.h"

#include <algorithm>

#include "answers/tune_named.h"
#include "answers/twins.h"

namespace answers {

KinAnswer answer(const collection::Collection& collection, const KinQuestion& question) {
    KinAnswer answer;
    answer.least = question.least;
    if (question.of) answer.of = setting_named(collection, *question.of, true);
    const std::vector<Twin> twins = answer.of ? probable_twins_of(collection, *answer.of, question.least)
                                              : probable_twins(collection, question.least);
    const auto from = [&](double least) {
        return std::count_if(twins.begin(), twins.end(), [&](const Twin& twin) { return twin.likeness >= least; });
    };
    answer.matched = static_cast<std::int64_t>(twins.size());
    answer.probable = from(tune::kProbableKin);
    answer.possible = from(tune::kPossibleKin) - answer.probable;
    for (std::size_t at = 0; at < std::min(question.limit.value_or(twins.size()), twins.size()); ++at)
        answer.pairs.push_back({*collection.setting_of_own(twins[at].one), *collection.setting_of_own(twins[at].other),
                                twins[at].likeness});
    return answer;
}

}  // namespace answers
