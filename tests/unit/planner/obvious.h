// Slow, obvious answers to compare the planner with, and small random collections.
#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <random>
#include <set>
#include <vector>

#include "planner/block_problem.h"
#include "planner/goal.h"
#include "planner/note_groups.h"
#include "planner/plan.h"

namespace obvious {

// Every note by itself, in time 1.
inline const planner::NoteGroups kSingleNotes;

inline music::NoteSet note_set(const std::vector<int>& notes) {
    music::NoteSet set;
    for (const int note : notes) set.add(note);
    return set;
}

inline std::set<int> plain_set(const music::NoteSet& notes) {
    std::set<int> plain;
    for (int note = 0; note < music::kMidiNotes; ++note)
        if (notes.has(note)) plain.insert(note);
    return plain;
}

struct Tune {
    std::vector<int> notes;
    std::int64_t weight = 1;
};

// Ids count from 1.
inline std::vector<planner::Wanted> wanted(const std::vector<Tune>& tunes) {
    std::vector<planner::Wanted> all;
    for (const Tune& tune : tunes)
        all.push_back({tune::TuneId{static_cast<std::int64_t>(all.size()) + 1}, note_set(tune.notes), tune.weight});
    return all;
}

inline planner::Goal having(const std::vector<int>& notes) {
    planner::Goal goal;
    goal.have = note_set(notes);
    return goal;
}

// Group after group: a tune opens once all of its notes have come, at the time all notes so far have taken (1 each).
inline std::int64_t cost(const std::vector<planner::Wanted>& wanted, const music::NoteSet& have,
                         const std::vector<std::vector<int>>& groups) {
    std::int64_t sum = 0;
    for (const planner::Wanted& tune : wanted) {
        std::set<int> lacking = plain_set(tune.needed);
        for (const int note : plain_set(have)) lacking.erase(note);
        std::int64_t time = 0;
        for (const std::vector<int>& group : groups) {
            if (lacking.empty()) break;
            time += static_cast<std::int64_t>(group.size());
            for (const int note : group) lacking.erase(note);
        }
        sum += lacking.empty() ? tune.weight * time : std::numeric_limits<std::int32_t>::max();
    }
    return sum;
}

inline std::vector<std::vector<int>> one_by_one(const std::vector<int>& order) {
    std::vector<std::vector<int>> groups;
    for (const int note : order) groups.push_back({note});
    return groups;
}

inline std::vector<std::vector<int>> groups_of(const planner::Plan& plan) {
    std::vector<std::vector<int>> groups;
    for (const planner::Step& step : plan.steps) {
        const std::set<int> notes = plain_set(step.add);
        groups.emplace_back(notes.begin(), notes.end());
    }
    return groups;
}

// By trying every order of the notes. For up to eight notes.
inline std::int64_t least_cost(const std::vector<planner::Wanted>& wanted, const music::NoteSet& have) {
    std::set<int> lacking;
    for (const planner::Wanted& tune : wanted)
        for (const int note : plain_set(tune.needed))
            if (!have.has(note)) lacking.insert(note);
    std::vector<int> order(lacking.begin(), lacking.end());
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    do {
        // The place of each note's arrival; the same sum as cost(), without sets.
        std::vector<std::int64_t> arrives(music::kMidiNotes, 0);
        for (std::size_t place = 0; place < order.size(); ++place)
            arrives[static_cast<std::size_t>(order[place])] = static_cast<std::int64_t>(place) + 1;
        std::int64_t sum = 0;
        for (const planner::Wanted& tune : wanted) {
            std::int64_t opens = 0;
            for (const int note : order)
                if (tune.needed.has(note)) opens = std::max(opens, arrives[static_cast<std::size_t>(note)]);
            sum += tune.weight * opens;
        }
        least = std::min(least, sum);
    } while (std::next_permutation(order.begin(), order.end()));
    return least;
}

// `tunes` tunes of one to `most` of the notes 60, 61 ... 60 + notes - 1, weights 1 to 5.
inline std::vector<planner::Wanted> random_tunes(std::mt19937& random, int notes, int tunes, int most) {
    const auto pick = [&random](int from, int to) {
        return from + static_cast<int>(random() % static_cast<unsigned>(to - from + 1));
    };
    std::vector<planner::Wanted> wanted;
    for (int tune = 0; tune < tunes; ++tune) {
        music::NoteSet needed;
        const int size = pick(1, std::min(most, notes));
        while (needed.size() < size) needed.add(60 + pick(0, notes - 1));
        wanted.push_back({tune::TuneId{tune + 1}, needed, pick(1, 5)});
    }
    return wanted;
}

// What one note, one name or one group takes under a goal, and which notes that is.
struct Lesson {
    std::set<int> notes;
    std::int64_t time = 1;
};

// The lessons in which the tunes' missing notes, and what the goal names, can be learnt.
inline std::vector<Lesson> lessons(const std::vector<planner::Wanted>& wanted, const planner::Goal& goal) {
    std::set<int> to_learn;
    for (const planner::Wanted& tune : wanted)
        for (const int note : plain_set(tune.needed)) to_learn.insert(note);
    for (const int note : goal.first) to_learn.insert(note);
    for (std::size_t round = 0; round <= goal.before.size(); ++round) {
        for (const planner::Group& group : goal.groups)
            if (std::any_of(to_learn.begin(), to_learn.end(), [&group](int note) { return group.notes.has(note); }))
                for (const int note : plain_set(group.notes)) to_learn.insert(note);
        for (const planner::Before& pair : goal.before)
            if (to_learn.count(pair.then) != 0) to_learn.insert(pair.first);
    }
    std::vector<Lesson> all;
    while (true) {
        for (const int note : plain_set(goal.have | goal.avoid)) to_learn.erase(note);
        if (to_learn.empty()) return all;
        Lesson lesson;
        const int note = *to_learn.begin();
        lesson.notes.insert(note);
        std::optional<std::int64_t> time;
        if (goal.by_name) {
            for (int other = note % 12; other < music::kMidiNotes; other += 12)
                if (to_learn.count(other) != 0) lesson.notes.insert(other);
        } else {
            for (const planner::Group& group : goal.groups)
                if (group.notes.has(note)) {
                    for (const int other : plain_set(group.notes.without(goal.have | goal.avoid)))
                        lesson.notes.insert(other);
                    time = group.time;
                }
        }
        lesson.time = 0;
        for (const int other : lesson.notes) {
            lesson.time = std::max(lesson.time, goal.times[static_cast<std::size_t>(other)]);
            to_learn.erase(other);
        }
        if (time) lesson.time = *time;
        all.push_back(lesson);
    }
}

// The cost of learning lessons in this order; nothing where the goal is not kept. Tunes that are never open count
// nothing.
inline std::optional<std::int64_t> cost_under(const std::vector<planner::Wanted>& wanted, const planner::Goal& goal,
                                              const std::vector<Lesson>& order) {
    std::vector<std::int64_t> time_of(music::kMidiNotes, -1);
    std::vector<std::int64_t> step_of(music::kMidiNotes, -1);
    for (const int note : plain_set(goal.have))
        time_of[static_cast<std::size_t>(note)] = step_of[static_cast<std::size_t>(note)] = 0;
    std::int64_t time = 0;
    for (std::size_t step = 0; step < order.size(); ++step) {
        time += order[step].time;
        for (const int note : order[step].notes) {
            time_of[static_cast<std::size_t>(note)] = time;
            step_of[static_cast<std::size_t>(note)] = static_cast<std::int64_t>(step) + 1;
        }
    }
    std::size_t place = 0;
    for (const int note : goal.first) {
        const std::int64_t step = step_of[static_cast<std::size_t>(note)];
        if (place > 0 && step == step_of[static_cast<std::size_t>(goal.first[place - 1])]) continue;
        if (step != static_cast<std::int64_t>(++place)) return std::nullopt;
    }
    for (const planner::Before& pair : goal.before) {
        const std::int64_t first = step_of[static_cast<std::size_t>(pair.first)];
        const std::int64_t then = step_of[static_cast<std::size_t>(pair.then)];
        if (goal.have.has(pair.first) || then < 0) continue;
        if (first < 0 || first >= then) return std::nullopt;
    }
    std::int64_t cost = 0;
    for (const planner::Wanted& tune : wanted) {
        std::int64_t opens = 0;
        std::int64_t opens_at_step = 0;
        bool is_ever_open = true;
        for (const int note : plain_set(tune.needed)) {
            is_ever_open = is_ever_open && time_of[static_cast<std::size_t>(note)] >= 0;
            opens = std::max(opens, time_of[static_cast<std::size_t>(note)]);
            opens_at_step = std::max(opens_at_step, step_of[static_cast<std::size_t>(note)]);
        }
        for (const planner::Must& must : goal.must)
            if (must.id == tune.id && (!is_ever_open || opens_at_step > must.steps)) return std::nullopt;
        if (is_ever_open) cost += tune.weight * opens;
    }
    return cost;
}

// By trying every order of the lessons. For up to seven. Empty when no order keeps to the goal.
inline std::optional<std::int64_t> least_cost_under(const std::vector<planner::Wanted>& wanted,
                                                    const planner::Goal& goal) {
    std::vector<Lesson> all = lessons(wanted, goal);
    std::vector<std::size_t> places(all.size());
    for (std::size_t place = 0; place < places.size(); ++place) places[place] = place;
    std::optional<std::int64_t> least;
    do {
        std::vector<Lesson> order;
        for (const std::size_t place : places) order.push_back(all[place]);
        const auto cost = cost_under(wanted, goal, order);
        if (cost && (!least || *cost < *least)) least = cost;
    } while (std::next_permutation(places.begin(), places.end()));
    return least;
}

// A block of units that take 1 to `most_time`, not cut from any collection. Every unit is in some demand.
inline planner::BlockProblem random_block(std::mt19937& random, int units, int demands, int most, int most_time) {
    planner::BlockProblem problem;
    int next_note = 40;
    for (int unit = 0; unit < units; ++unit) {
        planner::Unit made;
        made.time = 1 + static_cast<std::int64_t>(random() % static_cast<unsigned>(most_time));
        for (std::int64_t i = 0; i < made.time; ++i) made.leads.add(next_note++ % music::kMidiNotes);
        problem.units.push_back(made);
        problem.time += made.time;
    }
    std::set<std::uint64_t> seen;
    const auto demand = [&](std::uint64_t set) {
        if (!seen.insert(set).second) return;
        const auto weight = 1 + static_cast<std::int64_t>(random() % 5);
        problem.demands.push_back({set, weight});
        problem.weight += weight;
    };
    for (int made = 0; made < demands; ++made) {
        std::uint64_t set = 0;
        const int size = 1 + static_cast<int>(random() % static_cast<unsigned>(most));
        for (int i = 0; i < size; ++i) set |= std::uint64_t{1} << random() % static_cast<unsigned>(units);
        demand(set);
    }
    for (int unit = 0; unit < units; ++unit)
        if (std::none_of(problem.demands.begin(), problem.demands.end(),
                         [unit](const planner::UnitDemand& d) { return (d.units >> unit & 1) != 0; }))
            demand(std::uint64_t{1} << unit | 1);
    return problem;
}

// The least cost of learning what `learnt` leaves, by trying every order.
inline std::int64_t least_to_come(const planner::BlockProblem& problem, std::uint64_t learnt) {
    if (learnt == problem.all_units()) return 0;
    std::int64_t waiting = 0;
    for (const planner::UnitDemand& demand : problem.demands)
        if ((demand.units & learnt) != demand.units) waiting += demand.weight;
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (std::size_t unit = 0; unit < problem.units.size(); ++unit) {
        const std::uint64_t bit = std::uint64_t{1} << unit;
        if ((learnt & bit) == 0)
            least = std::min(least, problem.units[unit].time * waiting + least_to_come(problem, learnt | bit));
    }
    return least;
}

}  // namespace obvious
