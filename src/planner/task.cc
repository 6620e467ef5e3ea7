// What has to be learnt before a note is needed by every tune that needs the note: some least-cost order then keeps the
// constraint by itself, for a tune's notes may be learnt in any order, and no tune opens later than without. Tested by
// tests/unit/planner/task_test.cc.
#include "planner/task.h"

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <vector>

#include "base/invariant.h"
#include "music/pitch.h"

namespace planner {
namespace {

using Kind = GoalFault::Kind;

std::string name_of(int midi) { return music::to_string(music::spell_midi(midi, 0)); }

std::string names_of(const music::NoteSet& notes) {
    std::string names;
    for (const int midi : notes.midi_numbers()) names += (names.empty() ? "" : " ") + name_of(midi);
    return names;
}

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
        if (const music::NoteSet twice = group.notes & seen; !twice.empty())
            throw GoalFault(Kind::contradiction, names_of(twice) + " cannot be in two groups");
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
        if (goal.have.has(pair.then))
            throw GoalFault(Kind::contradiction, name_of(pair.first) + " cannot come before " + name_of(pair.then) +
                                                     ", which is there already");
        if (goal.avoid.has(pair.first))
            throw GoalFault(Kind::contradiction, name_of(pair.first) + " is to come before " + name_of(pair.then) +
                                                     ", but it is never to be learnt");
        const int first = groups.lead_of(pair.first);
        const int then = groups.lead_of(pair.then);
        if (first == then)
            throw GoalFault(Kind::contradiction, name_of(pair.first) + " cannot come before " + name_of(pair.then) +
                                                     ": they are learnt together");
        befores[static_cast<std::size_t>(then)] = befores[static_cast<std::size_t>(then)] | set_of(first);
    }
    for (int through = 0; through < music::kMidiNotes; ++through)
        for (music::NoteSet& before : befores)
            if (before.has(through)) before = before | befores[static_cast<std::size_t>(through)];
    for (const Before& pair : goal.before) {
        if (goal.have.has(pair.first)) continue;
        if (befores[static_cast<std::size_t>(groups.lead_of(pair.first))].has(groups.lead_of(pair.then)))
            throw GoalFault(Kind::contradiction, name_of(pair.first) + " is to come before " + name_of(pair.then) +
                                                     " and " + name_of(pair.then) + " before " + name_of(pair.first));
    }
    return befores;
}

std::vector<int> beginning(const Goal& goal, const NoteGroups& groups, const Befores& befores) {
    std::vector<int> first;
    music::NoteSet leads;
    music::NoteSet notes;
    for (const int midi : goal.first) {
        if (notes.has(midi)) throw GoalFault(Kind::contradiction, name_of(midi) + " is named twice");
        if (goal.have.has(midi))
            throw GoalFault(Kind::contradiction, name_of(midi) + " is named, but it is there already");
        if (goal.avoid.has(midi))
            throw GoalFault(Kind::contradiction, name_of(midi) + " is named, but it is never to be learnt");
        notes.add(midi);
        const int lead = groups.lead_of(midi);
        if (leads.has(lead)) continue;  // its group has come already
        const music::NoteSet too_late = befores[static_cast<std::size_t>(lead)].without(leads | set_of(lead));
        if (!too_late.empty())
            throw GoalFault(Kind::contradiction, name_of(midi) + " is named before " + name_of(too_late.lowest()) +
                                                     ", which is to come before it");
        leads.add(lead);
        first.push_back(lead);
    }
    return first;
}

// What must open by the time so many leads are learnt.
struct DueBy {
    music::NoteSet missing;
    std::vector<std::string> ids;  // of the tunes
};

std::string listed(const std::vector<std::string>& words) {
    std::string list;
    for (std::size_t at = 0; at < words.size(); ++at)
        list += (at == 0 ? "" : at + 1 == words.size() ? " and " : ", ") + words[at];
    return list;
}

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
        due.ids.push_back(std::to_string(must.id.value));
    }
    std::vector<Due> due;
    music::NoteSet leads;
    music::NoteSet begun;
    std::vector<std::string> ids;
    for (const auto& [steps, then] : by_steps) {
        leads = leads | then.missing;
        ids.insert(ids.end(), then.ids.begin(), then.ids.end());
        due.push_back({leads, steps});
        // What the path begins with takes its places whether these tunes need it or not.
        for (std::size_t at = 0; at < task.first.size() && static_cast<std::int64_t>(at) < steps; ++at)
            begun.add(task.first[at]);
        const int needed = (leads | begun).size();
        if (needed <= steps) continue;
        const bool is_one = ids.size() == 1;
        const music::NoteSet before = begun.without(leads);
        throw GoalFault(Kind::unmet, (is_one ? "tune " : "tunes ") + listed(ids) + " cannot open within " +
                                         std::to_string(steps) + (steps == 1 ? " note: " : " notes: ") +
                                         (is_one ? "it takes " : "they take ") + std::to_string(needed) + ", for " +
                                         (is_one ? "it needs " : "they need ") +
                                         names_of(task.groups.notes_under(leads)) +
                                         (before.empty() ? "" : " after " + names_of(task.groups.notes_under(before))));
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
            if (is_must)
                throw GoalFault(Kind::unmet, "tune " + std::to_string(tune.id.value) + ", which must open, needs " +
                                                 names_of(out) + ", never to be learnt");
            ++task.never_open;
            continue;
        }
        task.wanted.push_back({tune.id, needed, is_must ? std::max<std::int64_t>(tune.weight, 1) : tune.weight});
    }
    task.due = due_of(goal, task);
    return task;
}

}  // namespace planner
