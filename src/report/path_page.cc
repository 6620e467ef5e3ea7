#include "report/path_page.h"

#include <fmt/format.h>

#include "report/json.h"
#include "report/words.h"

namespace report {

namespace {

constexpr std::size_t kExamples = 2;

double share_of(std::int64_t part, std::int64_t whole) { return whole == 0 ? 0 : static_cast<double>(part) / static_cast<double>(whole); }

std::string notes_in_words(const music::NoteSet& notes) {
    std::string words;
    for (const std::string& name : note_names(notes)) words += (words.empty() ? "" : " ") + name;
    return words;
}

std::string examples_in_words(const std::vector<std::string>& titles) {
    std::string words;
    for (std::size_t at = 0; at < titles.size() && at < kExamples; ++at) words += (words.empty() ? "" : "; ") + titles[at];
    return words;
}

std::string runners_up_in_words(const planner::Step& step) {
    std::string words;
    for (const planner::RunnerUp& other : step.runners_up)
        words += (words.empty() ? "" : ", ") + notes_in_words(other.add) + " (" + std::to_string(other.opens) + ")";
    return words;
}

// The first choice spelled out, and what to know of steps that open nothing by one note.
void add_remarks(const PathPage& page, Document& document) {
    const planner::Plan& plan = page.plan;
    const planner::Step& first = plan.steps.front();
    std::string why = notes_in_words(first.add) + " first: it opens " + counted(first.opens, "tune that needs", "tunes that need") + " nothing else.";
    if (const std::string others = runners_up_in_words(first); !others.empty()) why += " Instead you could open: " + others + ".";
    if (!first.is_stall && first.opens > 0) document.blocks.emplace_back(Paragraph{why});
    bool stalls = false, waits = false;
    for (const planner::Step& step : plan.steps) {
        stalls = stalls || step.is_stall;
        waits = waits || (!step.is_stall && step.opens == 0);
    }
    if (stalls)
        document.blocks.emplace_back(Paragraph{"Where several notes stand in one step, no single note opens a tune at that point; these together do."});
    if (waits) document.blocks.emplace_back(Paragraph{"A step that opens nothing yet is learnt for the steps after it, and pays off there."});
}

std::string proof_in_words(const planner::Plan& plan) {
    if (plan.proof == planner::Proof::optimal)
        return fmt::format("Proved: no other order opens these tunes sooner. Waiting, counted in notes learnt and summed over the tunes: {:.0f}; with always the "
                           "next best note: {:.0f}.", plan.cost, plan.greedy_cost);
    const double gap = plan.cost > 0 ? 100 * (plan.cost - plan.lower_bound) / plan.cost : 0;
    return fmt::format("Not proved best. Waiting, counted in notes learnt and summed over the tunes: {:.0f}; no order can have less than {:.0f} ({:.1f} % less).", plan.cost, plan.lower_bound, gap);
}

}  // namespace

Document describe_path(const PathPage& page) {
    const planner::Plan& plan = page.plan;
    Document document;
    document.blocks.emplace_back(Paragraph{page.have.empty() ? "From no notes at all:" : "From " + counted(page.have.size(), "note", "notes") + ": " + note_list(page.have)});
    document.blocks.emplace_back(Paragraph{fmt::format("{} of {} fit now ({:.1f} %).", plan.open_now, counted(plan.tunes, "tune", "tunes"),
                                                       100 * share_of(plan.open_now, plan.tunes))});
    if (page.without_notes > 0) document.blocks.emplace_back(Paragraph{counted(page.without_notes, "tune has", "tunes have") + " no notes and stay out of the count."});
    if (plan.steps.empty()) {
        if (plan.tunes == 0) document.blocks.emplace_back(Paragraph{"There is no tune to plan for."});
        else if (plan.open_now == plan.tunes) document.blocks.emplace_back(Paragraph{"Every tune is open already; there is no note to learn."});
        return document;
    }
    document.blocks.emplace_back(Verbatim{"\n"});
    Table table{{{"step", false}, {"learn", false}, {"opens", false}, {"open", false}, {"of all", false}, {"for example", true, 16}}, {}};
    for (std::size_t at = 0; at < plan.steps.size(); ++at) {
        const planner::Step& step = plan.steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(notes_in_words(step.add)), Cell(step.opens), Cell(step.open),
                              Cell(Share{share_of(step.open, plan.tunes)}),
                              Cell(step.opens == 0 ? std::string("(for the next steps)") : examples_in_words(page.examples[at]))});
    }
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Verbatim{"\n"});
    add_remarks(page, document);
    document.blocks.emplace_back(Paragraph{proof_in_words(plan)});
    return document;
}

Document tabulate_path(const PathPage& page) {
    Table table{{{"step", false}, {"add", false}, {"opens", false}, {"open", false}, {"share", false}, {"runners_up", false}, {"examples", false}}, {}};
    for (std::size_t at = 0; at < page.plan.steps.size(); ++at) {
        const planner::Step& step = page.plan.steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(note_list(step.add)), Cell(step.opens), Cell(step.open),
                              Cell(Share{share_of(step.open, page.plan.tunes)}), Cell(runners_up_in_words(step)), Cell(examples_in_words(page.examples[at]))});
    }
    return {{std::move(table)}};
}

std::string path_json(const PathPage& page) {
    const planner::Plan& plan = page.plan;
    Json json;
    json["version"] = 1;
    json["have"] = note_names(page.have);
    json["tunes"] = plan.tunes;
    json["open_now"] = plan.open_now;
    json["steps"] = Json::array();
    for (std::size_t at = 0; at < plan.steps.size(); ++at) {
        const planner::Step& step = plan.steps[at];
        Json row;
        row["step"] = at + 1;
        row["add"] = note_names(step.add);
        row["opens"] = step.opens;
        row["open"] = step.open;
        row["stall"] = step.is_stall;
        row["ids"] = Json::array();
        for (const tune::TuneId id : step.ids) row["ids"].push_back(id.value);
        row["runners_up"] = Json::array();
        for (const planner::RunnerUp& other : step.runners_up) row["runners_up"].push_back({{"add", note_names(other.add)}, {"opens", other.opens}});
        json["steps"].push_back(std::move(row));
    }
    json["never_open"] = plan.never_open;
    json["without_notes"] = page.without_notes;
    json["cost"] = plan.cost;
    json["lower_bound"] = plan.lower_bound;
    json["proof"] = planner::proof_token(plan.proof);
    json["greedy_cost"] = plan.greedy_cost;
    json["limits"] = {{"states", plan.states}, {"seconds", page.seconds}};
    return finish(json);
}

}  // namespace report
