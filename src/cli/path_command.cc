// `gamut path`: which note next.
#include <algorithm>
#include <chrono>
#include <map>

#include "cli/commands.h"
#include "cli/interrupt.h"
#include "library/library.h"
#include "planner/deadline.h"
#include "planner/order_notes.h"
#include "report/csv.h"
#include "report/path_page.h"
#include "tune/title.h"

namespace cli {

namespace {

// Titles looked up for a step; two of them are shown.
constexpr std::size_t kTitlesPerStep = 2;

// The setting each tune of the plan goes by.
using Settings = std::map<tune::TuneId, tune::SettingId>;

// What the steps open, in the words of the library.
void describe_steps(const collection::Collection& library, const Settings& setting_of, report::PathPage& page) {
    const std::vector<collection::SettingKind> kinds = library.setting_kinds();
    const std::vector<tune::SettingId> scraps = library.scraps();
    const auto title_of = [&](tune::TuneId id) {
        const tune::SettingId setting = setting_of.at(id);
        return tune::title_or_none(library.first_titles(std::span(&setting, 1)).front());
    };
    for (const planner::Step& step : page.plan.steps) {
        report::StepWords& words = page.words.emplace_back();
        for (const tune::TuneId id : step.ids) {
            if (words.examples.size() == kTitlesPerStep) break;
            if (!std::binary_search(scraps.begin(), scraps.end(), setting_of.at(id)))
                words.examples.push_back(title_of(id));
        }
        if (step.pays_off) words.pays_off_in = title_of(step.pays_off->example);
        for (const tune::TuneId id : step.ids) {
            const auto kind = std::lower_bound(
                kinds.begin(), kinds.end(), setting_of.at(id),
                [](const collection::SettingKind& one, tune::SettingId key) { return one.setting < key; });
            if (kind == kinds.end() || kind->setting != setting_of.at(id)) continue;
            ++words.by_rhythm[kind->rhythm];
            ++words.by_key[kind->key];
        }
    }
}

// One deadline for all that is asked.
void plan(const PathGoal& asked, const std::vector<planner::Wanted>& wanted, planner::Goal& goal,
          music::Compass compass, report::PathPage& page) {
    const planner::Deadline deadline(goal.limits);
    if (asked.best_in()) {
        page.best_in = planner::best_in(wanted, goal, static_cast<std::size_t>(*asked.best_in()), deadline);
        page.best_in_steps = *asked.best_in();
        page.plan = page.best_in->path;
    } else if (const auto order = asked.own_order(wanted, goal, compass)) {
        page.own_order = planner::weigh_own_order(wanted, goal, *order, deadline);
        page.plan = page.own_order->best;
        if (goal.max_steps != 0 && page.plan.steps.size() > goal.max_steps) page.plan.steps.resize(goal.max_steps);
    } else {
        page.plan = planner::plan_path(wanted, goal, deadline);
        if (page.has_wishes) {
            planner::Goal free = goal;
            free.first.clear();
            free.before.clear();
            free.must.clear();
            free.weigh_alternatives = false;
            const planner::Plan best = planner::plan_path(wanted, free, deadline);
            if (best.proof == planner::Proof::optimal) page.free_cost = best.cost;
        }
    }
}

}  // namespace

CLI::App* PathCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand(
        "path", "in which order to learn notes, one at a time, so that tunes open as soon as can be");
    command
        ->add_option("--have", have_,
                     "the notes you have, such as \"G:major&D:major A3..B5\"; without it the path starts from nothing")
        ->type_name("NOTES");
    command->add_flag("--brief", is_brief_, "without the reasons of each step, which take most of the time");
    goal_.add_to(*command);
    filter_.add_to(*command, library_);
    add_format(*command, format_);
    command->footer(
        "Example:  gamut path --have \"G:major&D:major A3..B5\" --steps 3\nBetween orders that cost the same: what "
        "opens more now, then naturals, then the nearer note, then the lower.");
    return command;
}

int PathCommand::run() {
    goal_.check(filter_);
    report::PathPage page;
    page.is_brief = is_brief_;
    page.by_name = goal_.by_name();
    page.weight_by = goal_.weight_by();
    if (have_)
        page.have = filter_.notes_of("--have", *have_);
    else if (const auto of_players = filter_.have_of_players())
        page.have = *of_players;
    collection::Selection selection = filter_.selection_to_learn();
    selection.nearest_to = page.have;
    const library::Library library = library::Library::open_existing(library_file(library_));
    const collection::NotesAnswer answer = library.select_notes(selection);
    page.reach = filter_.reach_in_words();
    page.out_of_reach = page.reach.empty() ? 0 : answer.back_without("fits");
    Chosen chosen;
    chosen.by_setting = selection.settings;
    for (const collection::TuneNotes& tune : answer.rows) {
        if (tune.needed.empty()) {
            ++page.without_notes;
            continue;
        }
        const tune::TuneId id = chosen.by_setting ? library.own_ids(std::span(&tune.setting, 1)).front() : tune.id;
        chosen.add(id, tune.needed, tune.setting, tune.id);
        page.with_other_notes += tune.has_other_notes && !tune.needed.is_within(page.have) ? 1 : 0;
    }
    const Interrupt interrupt;
    planner::Goal goal;
    goal.have = page.have;
    goal.weigh_alternatives = !is_brief_;
    goal.limits.stop = &interrupt.has_come();
    const PathGoal::Met met = goal_.apply(library, filter_, chosen, goal);
    if (met == PathGoal::Met::not_at_all) return kDoneInPart;
    const std::vector<planner::Wanted>& wanted = chosen.wanted;
    Settings setting_of;
    for (std::size_t at = 0; at < wanted.size(); ++at) setting_of.emplace(wanted[at].id, chosen.settings[at]);
    page.has_wishes = !goal.first.empty() || !goal.before.empty() || !goal.must.empty();
    page.has_groups = !goal.groups.empty();
    page.has_unequal_times =
        goal_.takes_unequal_times() || std::any_of(goal.groups.begin(), goal.groups.end(),
                                                   [](const planner::Group& group) { return group.time.has_value(); });
    const auto start = std::chrono::steady_clock::now();
    try {
        plan(goal_, wanted, goal, filter_.compass(), page);
    } catch (const planner::GoalFault& fault) {
        if (fault.kind() == planner::GoalFault::Kind::contradiction) throw Misuse(fault.what());
        write_notice(std::string("gamut: ") + fault.what() + "\n");
        return kDoneInPart;
    }
    const bool is_stopped = interrupt.has_come();
    page.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    describe_steps(library, setting_of, page);
    if (format_.json)
        write_answer(report::path_json(page));
    else if (format_.csv)
        write_answer(report::render_csv(report::tabulate_path(page)));
    else
        write_answer(report::describe_path(page));
    if (is_stopped) write_notice("gamut: stopped; this is the best found so far\n");
    return page.plan.tunes > 0 && met == PathGoal::Met::in_full && !is_stopped ? kDone : kDoneInPart;
}

}  // namespace cli
