// `gamut path`: which note next.
#include <chrono>

#include "cli/commands.h"
#include "library/library.h"
#include "planner/order_notes.h"
#include "report/csv.h"
#include "report/path_page.h"

namespace cli {

namespace {

// Titles looked up for a step; two of them are shown.
constexpr std::size_t kTitlesPerStep = 2;

std::vector<std::vector<std::string>> examples_of(const library::Library& library, const planner::Plan& plan) {
    std::vector<std::vector<std::string>> examples;
    for (const planner::Step& step : plan.steps) {
        const std::size_t count = std::min(step.ids.size(), kTitlesPerStep);
        auto& titles = examples.emplace_back(library.first_titles(std::span(step.ids).first(count)));
        for (std::string& title : titles)
            if (title.empty()) title = "(no title)";
    }
    return examples;
}

}  // namespace

CLI::App* PathCommand::add_to(CLI::App& program) {
    CLI::App* command = program.add_subcommand("path", "in which order to learn notes, one at a time, so that tunes open as soon as can be");
    command->add_option("--have", have_, "the notes you have, such as \"G:major&D:major A3..B5\"; without it the path starts from nothing")->type_name("NOTES");
    command->add_option("--steps", steps_, "show only the first K steps")->type_name("K");
    filter_.add_to(*command);
    add_library(*command, library_);
    add_format(*command, format_);
    command->footer("Example:  gamut path --have \"G:major&D:major A3..B5\" --steps 3");
    return command;
}

int PathCommand::run() {
    if (steps_ && *steps_ <= 0) throw Misuse("--steps takes a number from 1 up");
    report::PathPage page;
    if (have_) page.have = notes_of("--have", *have_);
    const library::Selection selection = filter_.selection();
    const library::Library library = library::Library::open_existing(library_file(library_));
    const library::NotesAnswer answer = library.select_notes(selection);
    std::vector<planner::Wanted> wanted;
    wanted.reserve(answer.rows.size());
    for (const library::TuneNotes& tune : answer.rows) {
        if (tune.needed.empty()) ++page.without_notes;
        else wanted.push_back({tune.id, tune.needed, 1});
    }
    planner::Goal goal;
    goal.have = page.have;
    goal.max_steps = static_cast<std::size_t>(steps_.value_or(0));
    const auto start = std::chrono::steady_clock::now();
    page.plan = planner::plan_path(wanted, goal);
    page.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    page.examples = examples_of(library, page.plan);
    if (format_.json) write_answer(report::path_json(page));
    else if (format_.csv) write_answer(report::render_csv(report::tabulate_path(page)));
    else write_answer(report::describe_path(page));
    return page.plan.tunes > 0 ? kDone : kDoneInPart;
}

}  // namespace cli
