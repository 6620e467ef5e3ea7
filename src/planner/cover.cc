// Starts from good sets (cover_start.h), then rules out all others (cover_search.h). The smallest set is looked for
// from above: the first size at which a start meets enough, then one note fewer for as long as a search still finds
// one. Which K notes contain most edges of a graph is the clique problem, so no method is quick on everything; the
// limits end a search with a bound. Tested by tests/unit/planner/cover_test.cc.
#include "planner/cover.h"

#include <algorithm>
#include <optional>

#include "base/invariant.h"
#include "planner/cover_search.h"
#include "planner/cover_start.h"

namespace planner {
namespace {

// Each set once, in one order, so that answers do not hang on the order of the input. Weightless demands decide
// nothing.
std::vector<Demand> in_order(std::span<const Demand> demands) {
    std::vector<Demand> weighty;
    for (const Demand& demand : demands) {
        INVARIANT(demand.weight >= 0);
        if (demand.weight > 0) weighty.push_back(demand);
    }
    std::sort(weighty.begin(), weighty.end(),
              [](const Demand& a, const Demand& b) { return comes_before(a.missing, b.missing); });
    std::vector<Demand> merged;
    for (const Demand& demand : weighty) {
        if (merged.empty() || merged.back().missing != demand.missing)
            merged.push_back(demand);
        else
            merged.back().weight += demand.weight;
    }
    return merged;
}

music::NoteSet notes_in(std::span<const Demand> demands) {
    music::NoteSet notes;
    for (const Demand& demand : demands) notes = notes | demand.missing;
    return notes;
}

// Sets that meet less than `least` are not looked for; where there are none, upper_bound is still honest.
CoverAnswer search(std::span<const Demand> demands, const music::NoteSet& all, const CoverQuestion& question,
                   std::int64_t least, const Limits& limits, const Deadline& deadline) {
    const music::NoteSet notes = all | question.forced;
    const std::size_t count = std::min(question.notes, static_cast<std::size_t>(notes.size()));
    BestSets best(question.answers, kWorthOfWeight * least);
    offer_starts(demands, question.forced, notes, count, best, deadline);
    CoverSearch searching(demands, best, limits.max_states, deadline);
    searching.run(question.forced, notes.without(question.forced),
                  count - static_cast<std::size_t>(question.forced.size()));

    CoverAnswer answer;
    for (const BestSets::Ranked& set : best.kept())
        answer.covers.push_back({set.notes, weight_within(demands, set.notes)});
    answer.upper_bound = searching.most_unseen() / kWorthOfWeight;
    answer.upper_bound = std::max(answer.upper_bound, answer.covers.empty() ? least - 1 : answer.covers.front().met);
    answer.states = searching.states();
    answer.is_finished = searching.is_finished();
    return answer;
}

}  // namespace

CoverAnswer best_cover(std::span<const Demand> demands, const CoverQuestion& question, const Limits& limits,
                       const Deadline& deadline) {
    INVARIANT(static_cast<std::size_t>(question.forced.size()) <= question.notes && question.answers >= 1);
    const std::vector<Demand> ordered = in_order(demands);
    return search(ordered, notes_in(demands), question, 0, limits, deadline);
}

SmallestCover smallest_cover(std::span<const Demand> demands, std::int64_t weight, const Limits& limits,
                             const Deadline& deadline) {
    const std::vector<Demand> ordered = in_order(demands);
    INVARIANT(weight >= 0 && weight <= weight_of(ordered));
    SmallestCover smallest;
    smallest.is_finished = true;
    if (weight == 0) return smallest;

    const music::NoteSet notes = notes_in(ordered);
    std::size_t size = 1;
    for (;; ++size) {
        BestSets best(1, kWorthOfWeight * weight);
        offer_starts(ordered, {}, notes, size, best, deadline);
        if (best.kept().empty()) continue;
        smallest.cover = {best.kept().front().notes, weight_within(ordered, best.kept().front().notes)};
        break;
    }
    for (;; --size) {
        const CoverAnswer answer = search(ordered, notes, {size, {}, 1}, weight, limits, deadline);
        smallest.states += answer.states;
        if (!answer.covers.empty()) {
            smallest.cover = answer.covers.front();
            smallest.is_finished = answer.is_finished;
            if (size > 1) continue;
            smallest.fewest = 1;
            return smallest;
        }
        smallest.fewest = size + 1;
        if (answer.is_finished) return smallest;
        break;
    }
    // Ended before this size was ruled out: the largest size whose bound is below what is asked still is.
    for (smallest.fewest = size; smallest.fewest > 1; --smallest.fewest) {
        Limits glance = limits;
        glance.max_states = 0;
        const CoverAnswer answer = search(ordered, notes, {smallest.fewest - 1, {}, 1}, weight, glance, deadline);
        if (answer.upper_bound < weight) break;
    }
    return smallest;
}

}  // namespace planner
