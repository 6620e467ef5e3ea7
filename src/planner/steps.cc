#include "planner/steps.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "base/invariant.h"
#include "planner/greedy_order.h"
#include "planner/note_problem.h"

namespace planner {
namespace {

music::NoteSet just(int lead) {
    music::NoteSet set;
    set.add(lead);
    return set;
}

void drop_met(std::vector<Demand>& waiting, const music::NoteSet& learnt) {
    for (Demand& demand : waiting) demand.missing = demand.missing.without(learnt);
    std::erase_if(waiting, [](const Demand& demand) { return demand.missing.empty(); });
}

std::int64_t opened_by(std::span<const Demand> waiting, const music::NoteSet& add) {
    std::int64_t tunes = 0;
    for (const Demand& demand : waiting) tunes += demand.missing.is_within(add) ? demand.tunes : 0;
    return tunes;
}

bool is_single_lead_enough(std::span<const Demand> waiting) {
    return std::any_of(waiting.begin(), waiting.end(), [](const Demand& demand) { return demand.missing.size() == 1; });
}

// Leads of the next step of `order`, from `place` on.
music::NoteSet next_step(std::span<const Demand> waiting, std::span<const int> order, std::size_t place,
                         bool is_stall) {
    music::NoteSet add;
    do {
        add.add(order[place++]);
    } while (is_stall && opened_by(waiting, add) == 0);
    return add;
}

bool has_smaller_way(std::span<const Demand> waiting, const music::NoteSet& leads) {
    return std::any_of(waiting.begin(), waiting.end(), [&leads](const Demand& demand) {
        return demand.missing.is_within(leads) && demand.missing != leads;
    });
}

// What the waiting tunes lack, each set once, most tunes first; no more than `at_most` leads each. For single leads
// that is all.
std::vector<RunnerUp> rank_runners_up(std::span<const Demand> waiting, const music::NoteSet& add, std::size_t wanted) {
    std::vector<Demand> ranked;
    for (const Demand& demand : waiting)
        if (demand.missing.size() <= add.size() && demand.missing != add) ranked.push_back(demand);
    ranked = demands_after(ranked, {});  // merges what has become equal
    std::sort(ranked.begin(), ranked.end(), [](const Demand& a, const Demand& b) {
        if (a.tunes != b.tunes) return a.tunes > b.tunes;
        if (a.missing.size() != b.missing.size()) return a.missing.size() < b.missing.size();
        return comes_before(a.missing, b.missing);
    });
    std::vector<RunnerUp> best;
    for (const Demand& demand : ranked) {
        if (best.size() >= wanted) break;
        if (!has_smaller_way(waiting, demand.missing)) best.push_back({demand.missing, demand.tunes, {}});
    }
    return best;
}

// What meets more weight for its time than `add` does, or nothing.
std::optional<RunnerUp> better_now(std::span<const Demand> waiting, const music::NoteSet& add,
                                   const NoteGroups& groups) {
    if (add.size() != 1 || !is_single_lead_enough(waiting)) return std::nullopt;
    const int choice = greedy_choice(waiting, groups);
    const auto met_by = [&](const music::NoteSet& leads) { return weight_of(demands_within(waiting, leads)); };
    if (met_by(just(choice)) * groups.time_of(add) <= met_by(add) * groups.time_of(choice)) return std::nullopt;
    return RunnerUp{just(choice), opened_by(waiting, just(choice)), {}};
}

// Every tune into the step that adds its last note.
void place_tunes(const Task& task, const music::NoteSet& have, std::vector<Step>& steps) {
    std::array<std::size_t, music::kMidiNotes> step_of{};
    for (std::size_t step = 0; step < steps.size(); ++step)
        for (const int lead : steps[step].add.midi_numbers()) step_of[static_cast<std::size_t>(lead)] = step;
    for (const Wanted& tune : task.wanted) {
        const music::NoteSet missing = task.missing(tune.needed, have);
        if (missing.empty()) continue;
        std::size_t last = 0;
        for (const int lead : missing.midi_numbers()) last = std::max(last, step_of[static_cast<std::size_t>(lead)]);
        steps[last].ids.push_back(tune.id);
        for (const int lead : missing.midi_numbers()) {
            Step& step = steps[step_of[static_cast<std::size_t>(lead)]];
            if (step.opens > 0) continue;
            if (!step.pays_off || last + 1 < step.pays_off->step)
                step.pays_off = PayOff{last + 1, 1, tune.id};
            else if (last + 1 == step.pays_off->step) {
                ++step.pays_off->tunes;
                step.pays_off->example = std::min(step.pays_off->example, tune.id);
            }
        }
    }
    for (Step& step : steps) std::sort(step.ids.begin(), step.ids.end());
}

}  // namespace

std::vector<Step> tell_steps(const Task& task, const Goal& goal, std::span<const int> order) {
    std::vector<Demand> waiting = gather_demands(task.wanted, goal.have, task.groups);
    auto open = static_cast<std::int64_t>(task.wanted.size());
    for (const Demand& demand : waiting) open -= demand.tunes;

    std::vector<Step> steps;
    std::int64_t time = 0;
    for (std::size_t place = 0; place < order.size();) {
        Step step;
        step.is_asked_for = place < task.first.size();
        step.is_stall = !step.is_asked_for && !is_single_lead_enough(waiting);
        step.add = next_step(waiting, order, place, step.is_stall);
        step.opens = opened_by(waiting, step.add);
        step.open = open += step.opens;
        step.time = time += task.groups.time_of(step.add);
        step.runners_up = rank_runners_up(waiting, step.add, goal.runners_up);
        step.greedy = better_now(waiting, step.add, task.groups);
        drop_met(waiting, step.add);
        place += static_cast<std::size_t>(step.add.size());
        steps.push_back(std::move(step));
    }
    INVARIANT(waiting.empty());
    place_tunes(task, goal.have, steps);
    // Only now: what a step is for may come after those shown.
    if (goal.max_steps != 0 && steps.size() > goal.max_steps) steps.resize(goal.max_steps);
    return steps;
}

}  // namespace planner
