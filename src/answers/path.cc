// Tested by path_test.cc.
#include "answers/path.h"

#include <algorithm>
#include <limits>
#include <span>

#include "answers/tune_named.h"
#include "answers/tunes_asked.h"
#include "music/note_expression.h"
#include "planner/deadline.h"
#include "planner/order_notes.h"
#include "tune/title.h"

namespace answers {

namespace {

// Titles looked up for a step. Source: house choice; two fill a line.
constexpr std::size_t kTitlesPerStep = 2;

// The tunes a path is planned for, and what each of them is in the collection.
struct Chosen {
    std::vector<planner::Wanted> wanted;    // by their own ids where each setting stands for itself
    std::vector<tune::SettingId> settings;  // one for each: the setting it goes by
    std::vector<tune::TuneId> tunes;        // one for each: the tune that marks hang on
    bool by_setting = false;

    void add(tune::TuneId id, const music::NoteSet& needed, tune::SettingId setting, tune::TuneId tune) {
        wanted.push_back({id, needed, 1});
        settings.push_back(setting);
        tunes.push_back(tune);
    }
};

music::NoteSet needed_by_any(const std::vector<planner::Wanted>& wanted) {
    music::NoteSet notes;
    for (const planner::Wanted& tune : wanted) notes = notes | tune.needed;
    return notes;
}

// One note as it stands; a name means those of its octaves that are to be learnt.
std::vector<int> notes_meant(const std::string& text, const music::NoteSet& to_learn) {
    const music::NoteSet notes = read_part(Part::before, text, music::read_note_anywhere);
    return (notes.size() == 1 ? notes : notes & to_learn).midi_numbers();
}

// Notes in the order written. Of a name or a scale those are left out that are there already or that no tune needs.
std::vector<int> in_order(Part part, const std::string& text, music::Compass compass, const music::NoteSet& reach,
                          const music::NoteSet& have) {
    std::vector<int> order;
    const auto items =
        read_part(part, text, [&](const std::string& written) { return music::read_notes_in_order(written, compass); });
    for (const music::NoteItem& item : items) {
        const music::NoteSet notes = item.is_one_note ? item.notes : (item.notes & reach).without(have);
        for (const int midi : notes.midi_numbers()) order.push_back(midi);
    }
    if (order.empty()) throw Refused({part, Reason::nothing_to_learn, text});
    return order;
}

Chosen choose(const collection::Collection& collection, const collection::NotesAnswer& found, bool by_setting,
              PathAnswer& answer) {
    Chosen chosen;
    chosen.by_setting = by_setting;
    for (const collection::TuneNotes& tune : found.rows) {
        if (tune.needed.empty()) {
            ++answer.without_notes;
            continue;
        }
        const tune::TuneId id = by_setting ? collection.own_ids(std::span(&tune.setting, 1)).front() : tune.id;
        chosen.add(id, tune.needed, tune.setting, tune.id);
        answer.with_other_notes += tune.has_other_notes && !tune.needed.is_within(answer.have) ? 1 : 0;
    }
    return chosen;
}

// Puts tunes that must open among those chosen, whatever the filter says.
void require(const collection::Collection& collection, const PathQuestion& question, Chosen& chosen,
             planner::Goal& goal) {
    for (const PathQuestion::Must& must : question.must) {
        const tune::TuneRecord tune = tune_named(collection, must.tune, Part::must);
        const music::NoteSet needed = question.filter.columns.ornaments ? tune.needed | tune.ornaments : tune.needed;
        if (collection.settings_of(tune.id).empty()) throw Refused({Part::must, Reason::file_gone, must.tune});
        if (needed.empty()) throw Refused({Part::must, Reason::no_note, must.tune});
        const tune::TuneId id = chosen.by_setting ? tune.own : tune.id;
        if (std::none_of(chosen.wanted.begin(), chosen.wanted.end(),
                         [&](const planner::Wanted& one) { return one.id == id; }))
            chosen.add(id, needed, tune.setting, tune.id);
        const std::int64_t in_all = static_cast<std::int64_t>(question.best_in.value_or(0));
        goal.must.push_back({id, must.step.value_or(in_all)});
    }
}

std::map<tune::TuneId, std::int64_t> weights_of(const collection::Collection& collection,
                                                const PathQuestion& question) {
    std::map<tune::TuneId, std::int64_t> weights;
    for (const collection::TuneMark& mark : collection.marks()) {
        if (question.weight_by == WeightBy::count) {
            if (mark.count) weights[mark.id] = *mark.count;
            continue;
        }
        for (const std::string& tag : mark.tags)
            if (const auto found = question.tag_weights.find(tag); found != question.tag_weights.end())
                weights[mark.id] = std::max(weights[mark.id], found->second);
    }
    return weights;
}

void weigh(const collection::Collection& collection, const PathQuestion& question, const planner::Goal& goal,
           Chosen& chosen, PathAnswer& answer) {
    if (question.weight_by == WeightBy::equal) return;
    const std::map<tune::TuneId, std::int64_t> weights = weights_of(collection, question);
    std::int64_t total = 0;
    for (std::size_t at = 0; at < chosen.wanted.size(); ++at) {
        planner::Wanted& tune = chosen.wanted[at];
        const auto found = weights.find(chosen.tunes[at]);
        if (found != weights.end()) tune.weight = found->second;
        answer.without_count += question.weight_by == WeightBy::count && found == weights.end() ? 1 : 0;
        if (std::any_of(goal.must.begin(), goal.must.end(),
                        [&tune](const planner::Must& must) { return must.id == tune.id; }))
            tune.weight = std::max<std::int64_t>(tune.weight, 1);
        if (tune.weight > planner::kMaxTotalWeight - total)
            throw Refused({Part::weights, Reason::too_heavy, std::to_string(planner::kMaxTotalWeight)});
        total += tune.weight;
    }
}

planner::Goal goal_of(const TunesAsked& asked, const PathQuestion& question, Chosen& chosen, PathAnswer& answer) {
    planner::Goal goal;
    goal.have = answer.have;
    goal.weigh_alternatives = !question.is_brief;
    goal.by_name = question.by_name;
    goal.max_steps = question.steps;
    goal.limits = question.limits;
    require(asked.collection(), question, chosen, goal);
    weigh(asked.collection(), question, goal, chosen, answer);
    if (question.avoid) goal.avoid = anywhere(Part::avoid, *question.avoid);
    const music::NoteSet reach = needed_by_any(chosen.wanted).without(goal.avoid);
    if (question.first) goal.first = in_order(Part::first, *question.first, asked.compass(), reach, goal.have);
    for (const auto& [a, b] : question.before)
        for (const int first : notes_meant(a, reach.without(goal.have)))
            for (const int then : notes_meant(b, reach.without(goal.have))) goal.before.push_back({first, then});
    for (const PathQuestion::Group& group : question.groups)
        goal.groups.push_back({asked.notes(Part::group, group.notes), group.time});
    if (question.effort == Effort::instrument)
        for (const instruments::InstrumentNote& note : asked.instrument()->notes)
            goal.times[static_cast<std::size_t>(note.written)] = note.grade();
    for (const PathQuestion::Time& one : question.times)
        for (const int midi : one.notes.midi_numbers()) goal.times[static_cast<std::size_t>(midi)] = one.time;
    return goal;
}

// What the best path costs when nothing is insisted on; nothing where that is not proven.
std::optional<double> free_cost(const std::vector<planner::Wanted>& wanted, planner::Goal goal,
                                const planner::Deadline& deadline) {
    goal.first.clear();
    goal.before.clear();
    goal.must.clear();
    goal.weigh_alternatives = false;
    const planner::Plan best = planner::plan_path(wanted, goal, deadline);
    return best.proof == planner::Proof::optimal ? std::optional(best.cost) : std::nullopt;
}

// One deadline for all that is asked.
void plan(const TunesAsked& asked, const PathQuestion& question, const std::vector<planner::Wanted>& wanted,
          const planner::Goal& goal, PathAnswer& answer) {
    const planner::Deadline deadline(goal.limits);
    if (question.best_in) {
        answer.best_in = planner::best_in(wanted, goal, *question.best_in, deadline);
        answer.best_in_steps = static_cast<std::int64_t>(*question.best_in);
        answer.plan = answer.best_in->path;
    } else if (question.order) {
        const std::vector<int> order =
            in_order(Part::order, *question.order, asked.compass(), needed_by_any(wanted), goal.have);
        answer.own_order = planner::weigh_own_order(wanted, goal, order, deadline);
        answer.plan = answer.own_order->best;
        if (goal.max_steps != 0 && answer.plan.steps.size() > goal.max_steps) answer.plan.steps.resize(goal.max_steps);
    } else {
        answer.plan = planner::plan_path(wanted, goal, deadline);
        if (answer.has_wishes) answer.free_cost = free_cost(wanted, goal, deadline);
    }
}

// The setting each tune of the plan goes by.
using Settings = std::map<tune::TuneId, tune::SettingId>;

// What the steps open, in the words of the collection.
std::vector<StepOpens> what_they_open(const collection::Collection& collection, const Chosen& chosen,
                                      const planner::Plan& plan) {
    Settings setting_of;
    for (std::size_t at = 0; at < chosen.wanted.size(); ++at)
        setting_of.emplace(chosen.wanted[at].id, chosen.settings[at]);
    const std::vector<collection::SettingKind> kinds = collection.setting_kinds();
    const std::vector<tune::SettingId> scraps = collection.scraps();
    const auto title_of = [&](tune::TuneId id) {
        const tune::SettingId setting = setting_of.at(id);
        return tune::title_or_none(collection.first_titles(std::span(&setting, 1)).front());
    };
    std::vector<StepOpens> all;
    for (const planner::Step& step : plan.steps) {
        StepOpens& opens = all.emplace_back();
        for (const tune::TuneId id : step.ids) {
            if (opens.examples.size() == kTitlesPerStep) break;
            if (!std::binary_search(scraps.begin(), scraps.end(), setting_of.at(id)))
                opens.examples.push_back(title_of(id));
        }
        if (step.pays_off) opens.pays_off_in = title_of(step.pays_off->example);
        for (const tune::TuneId id : step.ids) {
            const auto kind = std::lower_bound(
                kinds.begin(), kinds.end(), setting_of.at(id),
                [](const collection::SettingKind& one, tune::SettingId key) { return one.setting < key; });
            if (kind == kinds.end() || kind->setting != setting_of.at(id)) continue;
            ++opens.by_rhythm[kind->rhythm];
            ++opens.by_key[kind->key];
        }
    }
    return all;
}

}  // namespace

PathAnswer answer(const collection::Collection& collection, const PathQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    if (question.effort == Effort::instrument && asked.instrument() == nullptr)
        throw Refused({Part::effort, Reason::grade_of_which});
    PathAnswer answer;
    answer.is_brief = question.is_brief;
    answer.by_name = question.by_name;
    answer.weight_by = question.weight_by;
    answer.max_seconds = question.limits.max_seconds;
    answer.have =
        question.have ? asked.notes(Part::have, *question.have) : asked.have_of_players().value_or(music::NoteSet());
    collection::Selection selection = asked.selection_to_learn();
    selection.nearest_to = answer.have;
    const collection::NotesAnswer found = collection.select_notes(selection);
    answer.reach = asked.reach();
    answer.out_of_reach = answer.reach.is_given() ? found.back_without(collection::FilterBy::fits) : 0;
    Chosen chosen = choose(collection, found, selection.settings, answer);
    const planner::Goal goal = goal_of(asked, question, chosen, answer);
    answer.tunes = static_cast<std::int64_t>(chosen.wanted.size());
    answer.left_out = asked.left_out();
    answer.has_wishes = !goal.first.empty() || !goal.before.empty() || !goal.must.empty();
    answer.has_groups = !goal.groups.empty();
    answer.has_unequal_times = question.effort == Effort::instrument || !question.times.empty() ||
                               std::any_of(goal.groups.begin(), goal.groups.end(),
                                           [](const planner::Group& group) { return group.time.has_value(); });
    try {
        plan(asked, question, chosen.wanted, goal, answer);
    } catch (const planner::GoalFault& fault) {
        Refusal refusal{Part::goal, fault.is_contradiction() ? Reason::in_words : Reason::not_to_be_met};
        refusal.goal = fault.fault();
        throw Refused(std::move(refusal));
    }
    answer.opens = what_they_open(collection, chosen, answer.plan);
    return answer;
}

}  // namespace answers
