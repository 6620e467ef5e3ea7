// What has to be learnt before a note is needed by every tune that needs the note: some least-cost order then keeps the
// constraint by itself, for a tune's notes may be learnt in any order, and no tune opens later than without. Tested by
// tests/unit/planner/task_test.cc.
#include "planner/task.h"

#include <algorithm>
#include <array>
#include <map>
#include <vector>

#include "base/invariant.h"
#include "planner/goal_fault.h"

namespace planner {
namespace {

music::NoteSet set_of(int midi) {
    music::NoteSet set;
    set.add(midi);
    return set;
}

std::int64_t hardest(const music::NoteSet& notes, const Goal& goal) {
    std::int64_t time = 1;
    for (const int midi : notes.midi_numbers()) time = std::max(time, goal.times[static_cast<std::size_t>(midi)]);
    return time;
}

std::vector<Group> groups_by_name(std::span<const Wanted> wanted, const Goal& goal) {
    music::NoteSet used;
    for (const Wanted& tune : wanted) used = used | tune.needed;
    for (const int midi : goal.first) used.add(midi);
    for (std::size_t round = 0; round < goal.before.size(); ++round)  // what comes before what comes before ...
        for (const Before& pair : goal.before)
            if (used.has(pair.then)) used.add(pair.first);
    std::vector<Group> groups(12);  // by pitch class
    for (const int midi : used.midi_numbers()) groups[static_cast<std::size_t>(midi % 12)].notes.add(midi);
    return groups;
}

NoteGroups join_groups(std::span<const Wanted> wanted, const Goal& goal) {
    NoteGroups joined;
    for (int midi = 0; midi < music::kMidiNotes; ++midi)
        joined.set_time(midi, goal.times[static_cast<std::size_t>(midi)]);
    music::NoteSet seen;
    for (const Group& group : goal.by_name ? groups_by_name(wanted, goal) : goal.groups) {
        if (const music::NoteSet twice = group.notes & seen; !twice.empty()) throw GoalFault(InTwoGroups{twice});
        seen = seen | group.notes;
        const music::NoteSet to_learn = group.notes.without(goal.have | goal.avoid);
        if (!to_learn.empty()) joined.join(to_learn, group.time.value_or(hardest(to_learn, goal)));
    }
    return joined;
}

Befores befores_of(const Goal& goal, const NoteGroups& groups) {
    Befores befores;
    for (int lead = 0; lead < music::kMidiNotes; ++lead) befores[static_cast<std::size_t>(lead)].add(lead);
    for (const Before& pair : goal.before) {
        if (goal.have.has(pair.first)) continue;
        const auto wrong = [&pair](WrongBefore::Why why) { return GoalFault(WrongBefore{pair.first, pair.then, why}); };
        if (goal.have.has(pair.then)) throw wrong(WrongBefore::Why::there_already);
        if (goal.avoid.has(pair.first)) throw wrong(WrongBefore::Why::never_learnt);
        const int first = groups.lead_of(pair.first);
        const int then = groups.lead_of(pair.then);
        if (first == then) throw wrong(WrongBefore::Why::learnt_together);
        befores[static_cast<std::size_t>(then)] = befores[static_cast<std::size_t>(then)] | set_of(first);
    }
    for (int through = 0; through < music::kMidiNotes; ++through)
        for (music::NoteSet& before : befores)
            if (before.has(through)) before = before | befores[static_cast<std::size_t>(through)];
    for (const Before& pair : goal.before) {
        if (goal.have.has(pair.first)) continue;
        if (befores[static_cast<std::size_t>(groups.lead_of(pair.first))].has(groups.lead_of(pair.then)))
            throw GoalFault(WrongBefore{pair.first, pair.then, WrongBefore::Why::both_ways});
    }
    return befores;
}

std::vector<int> beginning(const Goal& goal, const NoteGroups& groups, const Befores& befores) {
    std::vector<int> first;
    music::NoteSet leads;
    music::NoteSet notes;
    for (const int midi : goal.first) {
        const auto wrong = [midi](WrongFirst::Why why) { return GoalFault(WrongFirst{midi, why}); };
        if (notes.has(midi)) throw wrong(WrongFirst::Why::twice);
        if (goal.have.has(midi)) throw wrong(WrongFirst::Why::there_already);
        if (goal.avoid.has(midi)) throw wrong(WrongFirst::Why::never_learnt);
        notes.add(midi);
        const int lead = groups.lead_of(midi);
        if (leads.has(lead)) continue;  // its group has come already
        const music::NoteSet too_late = befores[static_cast<std::size_t>(lead)].without(leads | set_of(lead));
        if (!too_late.empty()) throw GoalFault(NamedTooEarly{midi, too_late.lowest()});
        leads.add(lead);
        first.push_back(lead);
    }
    return first;
}

// What must open by the time so many leads are learnt.
struct DueBy {
    music::NoteSet missing;
    std::vector<tune::TuneId> tunes;
};

std::vector<Due> due_of(const Goal& goal, const Task& task) {
    std::map<std::int64_t, DueBy> by_steps;
    for (const Must& must : goal.must) {
        if (must.steps == 0) continue;
        const auto tune = std::find_if(task.wanted.begin(), task.wanted.end(),
                                       [&must](const Wanted& wanted) { return wanted.id == must.id; });
        INVARIANT(tune != task.wanted.end());
        const music::NoteSet missing = task.missing(tune->needed, goal.have);
        if (missing.empty()) continue;
        DueBy& due = by_steps[must.steps];
        due.missing = due.missing | missing;
        due.tunes.push_back(must.id);
    }
    std::vector<Due> due;
    music::NoteSet leads;
    music::NoteSet begun;
    std::vector<tune::TuneId> tunes;
    for (const auto& [steps, then] : by_steps) {
        leads = leads | then.missing;
        tunes.insert(tunes.end(), then.tunes.begin(), then.tunes.end());
        due.push_back({leads, steps});
        // What the path begins with takes its places whether these tunes need it or not.
        for (std::size_t at = 0; at < task.first.size() && static_cast<std::int64_t>(at) < steps; ++at)
            begun.add(task.first[at]);
        const int needed = (leads | begun).size();
        if (needed <= steps) continue;
        throw GoalFault(TooFewSteps{tunes, steps, needed, task.groups.notes_under(leads),
                                    task.groups.notes_under(begun.without(leads))});
    }
    return due;
}

}  // namespace

std::vector<int> keep_befores(std::span<const int> order, const Befores& befores) {
    music::NoteSet to_come;
    for (const int lead : order) to_come.add(lead);
    std::vector<int> kept;
    std::vector<int> held;
    const auto is_ready = [&](int lead) {
        return (befores[static_cast<std::size_t>(lead)].without(set_of(lead)) & to_come).empty();
    };
    for (const int lead : order) {
        held.push_back(lead);
        // One that is learnt may set free those held before it.
        for (auto ready = held.begin(); ready != held.end();) {
            ready = std::find_if(held.begin(), held.end(), is_ready);
            if (ready == held.end()) break;
            kept.push_back(*ready);
            to_come = to_come.without(set_of(*ready));
            held.erase(ready);
            ready = held.begin();
        }
    }
    INVARIANT(held.empty());
    return kept;
}

Task make_task(std::span<const Wanted> wanted, const Goal& goal) {
    Task task;
    task.groups = join_groups(wanted, goal);
    task.befores = befores_of(goal, task.groups);
    task.first = beginning(goal, task.groups, task.befores);

    task.wanted.reserve(wanted.size());
    for (const Wanted& tune : wanted) {
        INVARIANT(!tune.needed.empty() && tune.weight >= 0);
        const bool is_must =
            std::any_of(goal.must.begin(), goal.must.end(), [&tune](const Must& must) { return must.id == tune.id; });
        music::NoteSet leads;
        if (!goal.before.empty())
            for (const int lead : task.missing(tune.needed, goal.have).midi_numbers())
                leads = leads | task.befores[static_cast<std::size_t>(lead)];
        const music::NoteSet needed = tune.needed | task.groups.notes_under(leads);
        if (const music::NoteSet out = needed.without(goal.have) & goal.avoid; !out.empty()) {
            if (is_must) throw GoalFault(NeedsAvoided{tune.id, out});
            ++task.never_open;
            continue;
        }
        task.wanted.push_back({tune.id, needed, is_must ? std::max<std::int64_t>(tune.weight, 1) : tune.weight});
    }
    task.due = due_of(goal, task);
    return task;
}

}  // namespace planner
