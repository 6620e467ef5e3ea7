#include "syllabus/step_order.h"

#include <algorithm>
#include <limits>

#include "planner/goal_fault.h"
#include "planner/order_notes.h"

namespace syllabus {

namespace {

planner::Goal goal_of(const Course& course, const music::NoteSet& have) {
    planner::Goal goal;
    goal.have = have;
    music::NoteSet reach = course.players.front().reach;
    for (const planner::Member& player : course.players) reach = reach & player.reach;
    for (int midi = 0; midi < music::kMidiNotes; ++midi)
        if (!reach.has(midi) && !have.has(midi)) goal.avoid.add(midi);
    for (const int midi : course.first)
        if (!have.has(midi)) goal.first.push_back(midi);
    goal.runners_up = 0;
    goal.limits.max_seconds = std::numeric_limits<double>::infinity();  // by states alone: the same everywhere
    return goal;
}

// Plans tried before the dues are given up altogether. Source: house choice.
constexpr int kMostTries = 2000;

}  // namespace

planner::Plan order_steps(const Course& course, const music::NoteSet& have, const std::vector<StepDue>& dues) {
    std::vector<planner::Wanted> wanted;
    for (const CourseTune& one : course.tunes) wanted.push_back({one.tune.id, one.tune.needed, 1});
    const planner::Goal free = goal_of(course, have);
    int tries = 0;
    for (std::size_t without = 0; without < dues.size(); ++without) {
        std::vector<bool> is_left_out(dues.size(), false);  // every way of leaving out so many, the last ones first
        std::fill(is_left_out.end() - static_cast<std::ptrdiff_t>(without), is_left_out.end(), true);
        do {
            if (++tries > kMostTries) return planner::plan_path(wanted, free);
            planner::Goal goal = free;
            for (std::size_t at = 0; at < dues.size(); ++at)
                if (!is_left_out[at])
                    goal.must.push_back(
                        {course.tunes[dues[at].tune].tune.id, static_cast<std::int64_t>(dues[at].steps)});
            try {
                return planner::plan_path(wanted, goal);
            } catch (const planner::GoalFault& fault) {
                if (fault.is_contradiction()) throw;
            }
        } while (std::next_permutation(is_left_out.begin(), is_left_out.end()));
    }
    return planner::plan_path(wanted, free);
}

}  // namespace syllabus
