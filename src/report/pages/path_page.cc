#include "report/pages/path_page.h"

#include <fmt/format.h>

#include "report/words/json.h"
#include "report/words/step_reasons.h"
#include "report/words/words.h"

namespace report {

namespace {

std::string examples_in_words(const answers::PathAnswer& page, std::size_t at) {
    std::string words;
    if (at >= page.opens.size()) return words;
    const std::vector<std::string>& titles = page.opens[at].examples;
    for (std::size_t title = 0; title < titles.size(); ++title) words += (words.empty() ? "" : "; ") + titles[title];
    return words;
}

std::string runners_up_in_words(const answers::PathAnswer& page, const planner::Step& step) {
    std::string words;
    for (const planner::RunnerUp& other : step.runners_up)
        words += (words.empty() ? "" : ", ") + step_notes(other.add, page.by_name) + " (" +
                 std::to_string(other.opens) + ")";
    return words;
}

// What the costs count, for the sentences they stand in.
std::string waiting_in_words(const answers::PathAnswer& page) {
    const std::string unit = page.has_unequal_times ? "learning time"
                             : page.by_name         ? "names learnt"
                             : page.has_groups      ? "notes and groups learnt"
                                                    : "notes learnt";
    const std::string over =
        page.weight_by == answers::WeightBy::equal ? "summed over the tunes" : "summed over the tunes by their weight";
    return "Waiting, counted in " + unit + " and " + over + ": ";
}

double gap_percent(double cost, double lower_bound) { return cost > 0 ? 100 * (cost - lower_bound) / cost : 0; }

std::string proof_in_words(const answers::PathAnswer& page) {
    const planner::Plan& plan = page.plan;
    if (plan.proof == planner::Proof::gap)
        return fmt::format("Not proved best. {}{:.0f}; no order can have less than {:.0f} ({:.1f} % less).",
                           waiting_in_words(page), plan.cost, plan.lower_bound,
                           gap_percent(plan.cost, plan.lower_bound));
    std::string words = fmt::format("Proved: no other order {} sooner. {}{:.0f}",
                                    page.best_in      ? "of these opens those tunes"
                                    : page.has_wishes ? "that keeps to what you asked opens these tunes"
                                                      : "opens these tunes",
                                    waiting_in_words(page), plan.cost);
    // Greedy does not look at what must open when.
    words += plan.greedy_cost >= plan.cost
                 ? fmt::format("; taking the most useful note each time: {:.0f}.", plan.greedy_cost)
                 : ".";
    if (page.free_cost)
        words += *page.free_cost < plan.cost ? fmt::format(" Without your wishes: {:.0f}, so they cost {:.0f}.",
                                                           *page.free_cost, plan.cost - *page.free_cost)
                                             : " Your wishes cost nothing.";
    return words;
}

void add_beginning(const answers::PathAnswer& page, Document& document) {
    const planner::Plan& plan = page.plan;
    document.blocks.emplace_back(Paragraph{page.have.empty() ? "From no notes at all:"
                                                             : "From " + counted(page.have.size(), "note", "notes") +
                                                                   ": " + note_list(page.have)});
    document.blocks.emplace_back(
        Paragraph{fmt::format("{} of {} fit now ({:.1f} %).", plan.open_now, counted(plan.tunes, "tune", "tunes"),
                              100 * share_of(plan.open_now, plan.tunes))});
    if (page.with_other_notes > 0)
        document.blocks.emplace_back(
            Paragraph{counted(page.with_other_notes, "tune has", "tunes have") +
                      " versions with different notes. The path goes by the one nearest to your notes; another may "
                      "open sooner. --versions plans for each."});
    describe_out_of_reach(page.out_of_reach, page.reach, document);
    if (page.without_notes > 0)
        document.blocks.emplace_back(
            Paragraph{counted(page.without_notes, "tune has", "tunes have") + " no notes and stay out of the count."});
    if (plan.never_open > 0 && !page.best_in)
        document.blocks.emplace_back(
            Paragraph{counted(plan.never_open, "tune needs a note you never want to learn and stays closed.",
                              "tunes need a note you never want to learn and stay closed.")});
}

// Notes learnt on the way to each step; a step of a group counts each of its notes.
template <typename Steps>
Curves::Curve curve_of(std::string name, std::int64_t open_now, const Steps& steps) {
    Curves::Curve curve{std::move(name), {{0, static_cast<double>(open_now)}}};
    double notes = 0;
    for (const auto& step : steps) curve.points.emplace_back(notes += step.add.size(), static_cast<double>(step.open));
    return curve;
}

void add_curves(const answers::PathAnswer& page, Document& document) {
    if (page.plan.steps.empty()) return;
    Curves curves{"Tunes open, note by note", "notes learnt", "tunes open", {}};
    curves.curves.push_back(
        curve_of("best", page.plan.open_now, page.own_order ? page.own_order->best.steps : page.plan.steps));
    if (page.own_order) curves.curves.push_back(curve_of("your order", page.plan.open_now, page.own_order->steps));
    document.blocks.emplace_back(std::move(curves));
}

void add_best_in(const answers::PathAnswer& page, Document& document) {
    const planner::BestIn& best = *page.best_in;
    const std::int64_t opens = page.plan.tunes - page.plan.open_now - page.plan.never_open;
    const std::string unit =
        page.by_name ? counted(page.best_in_steps, "name", "names") : counted(page.best_in_steps, "note", "notes");
    const std::int64_t steps = static_cast<std::int64_t>(best.steps);
    const std::string chosen = step_notes(best.add, page.by_name) +
                               (best.add.size() == 1 ? ". It opens " : ". They open ") + std::to_string(opens) +
                               " more, " + std::to_string(page.plan.open_now + opens) + " in all.";
    std::string words = steps < page.best_in_steps
                            ? "Of " + unit + " no more than " + std::to_string(steps) + " are of use: " + chosen
                            : "The " + unit +
                                  (page.best_in_steps == 1 ? " that opens most tunes: " : " that open most tunes: ") +
                                  chosen;
    if (best.proof() == planner::Proof::optimal)
        words += " Proved: no other " + unit + (page.best_in_steps == 1 ? " opens more" : " open more") +
                 (page.weight_by == answers::WeightBy::equal ? "." : " weight.");
    else
        words += fmt::format(" Not proved best: no other {} can open more than {} (these: {}), {:.1f} % more.", unit,
                             best.upper_bound, best.met,
                             100 * share_of(best.upper_bound - best.met, std::max<std::int64_t>(best.met, 1)));
    document.blocks.emplace_back(Paragraph{words});
    document.blocks.emplace_back(Paragraph{
        "This is another question than the path's: with one note more or less the best may be quite different notes."});
}

Table steps_table(const answers::PathAnswer& page) {
    const planner::Plan& plan = page.plan;
    Table table{{{"step"}, {"learn"}, {"opens"}, {"open"}, {"of all"}, {"for example", Fit::cut, 16}}, {}};
    for (std::size_t at = 0; at < plan.steps.size(); ++at) {
        const planner::Step& step = plan.steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(Notes{step.add, 0, page.by_name}),
                              Cell(step.opens), Cell(step.open), Cell(Share{share_of(step.open, plan.tunes)}),
                              Cell(step.opens > 0             ? examples_in_words(page, at)
                                   : is_for_nothing(page, at) ? std::string("(no tune needs it)")
                                                              : std::string("(for later steps)"))});
    }
    return table;
}

void add_reasons(const answers::PathAnswer& page, Document& document) {
    document.blocks.emplace_back(Heading{"Why this order"});
    for (std::size_t at = 0; at < page.plan.steps.size(); ++at)
        document.blocks.emplace_back(Paragraph{std::to_string(at + 1) + ". " + reason_of(page, at)});
}

void add_own_order(const answers::PathAnswer& page, Document& document) {
    const planner::OwnOrder& own = *page.own_order;
    document.blocks.emplace_back(Heading{"Your own order"});
    Table table{{{"step"}, {"learn"}, {"opens"}, {"open"}, {"best by then"}, {"loses"}}, {}};
    const planner::OwnStep* worst = nullptr;
    for (std::size_t at = 0; at < own.steps.size(); ++at) {
        const planner::OwnStep& step = own.steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(Notes{step.add, 0, page.by_name}),
                              Cell(step.opens), Cell(step.open), Cell(step.best_open),
                              step.loses ? Cell(*step.loses) : Cell(std::string("?"))});
        if (step.loses.value_or(0) > (worst == nullptr ? 0 : worst->loses.value_or(0))) worst = &step;
    }
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Break{});
    const double loss = own.completed.cost - own.best.cost;
    std::string words = fmt::format("{}{:.0f} in your order, {:.0f} in the best.", waiting_in_words(page),
                                    own.completed.cost, own.best.cost);
    if (own.completed.proof == planner::Proof::gap || own.best.proof == planner::Proof::gap)
        words += " Not both figures are proved least.";
    else if (loss == 0)
        words += " Yours is as good as any.";
    else
        words += fmt::format(" Yours costs {:.0f} more ({:.1f} %)", loss, 100 * loss / own.best.cost) +
                 (worst == nullptr
                      ? "."
                      : fmt::format("; {} costs most of it, {}.", step_notes(worst->add, page.by_name), *worst->loses));
    document.blocks.emplace_back(Paragraph{words});
    document.blocks.emplace_back(
        Paragraph{"Notes your order does not name follow in the best order. \"loses\" is what a step costs for good, "
                  "however well you go on."});
}

}  // namespace

Document describe(const answers::PathAnswer& page) {
    const planner::Plan& plan = page.plan;
    Document document;
    document.blocks.emplace_back(Title{"The order of notes", true});
    add_beginning(page, document);
    if (plan.steps.empty()) {
        if (plan.tunes == 0)
            document.blocks.emplace_back(Paragraph{"There is no tune to plan for."});
        else if (plan.open_now == plan.tunes)
            document.blocks.emplace_back(Paragraph{"Every tune is open already; there is no note to learn."});
        else if (page.best_in)
            document.blocks.emplace_back(Paragraph{"No " + counted(page.best_in_steps, "note opens", "notes open") +
                                                   " a tune from here; ask about more."});
        else
            document.blocks.emplace_back(Paragraph{"There is no note to learn that would open a tune."});
        return document;
    }
    if (page.best_in) add_best_in(page, document);
    document.blocks.emplace_back(Break{});
    document.blocks.emplace_back(steps_table(page));
    add_curves(page, document);
    document.blocks.emplace_back(Break{});
    document.blocks.emplace_back(Paragraph{proof_in_words(page)});
    if (page.own_order)
        add_own_order(page, document);
    else if (!page.is_brief)
        add_reasons(page, document);
    return document;
}

namespace {

Document tabulate_own_order(const answers::PathAnswer& page) {
    Table table{{{"step"}, {"add"}, {"opens"}, {"open"}, {"time"}, {"best_open"}, {"loses"}}, {}};
    for (std::size_t at = 0; at < page.own_order->steps.size(); ++at) {
        const planner::OwnStep& step = page.own_order->steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(Notes{step.add}), Cell(step.opens),
                              Cell(step.open), Cell(step.time), Cell(step.best_open),
                              step.loses ? Cell(*step.loses) : Cell()});
    }
    return {{std::move(table)}};
}

}  // namespace

Document tabulate(const answers::PathAnswer& page) {
    if (page.own_order) return tabulate_own_order(page);
    Table table{{{"step"}, {"add"}, {"opens"}, {"open"}, {"share"}, {"time"}, {"runners_up"}, {"examples"}}, {}};
    for (std::size_t at = 0; at < page.plan.steps.size(); ++at) {
        const planner::Step& step = page.plan.steps[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(Notes{step.add}), Cell(step.opens),
                              Cell(step.open), Cell(Share{share_of(step.open, page.plan.tunes)}), Cell(step.time),
                              Cell(runners_up_in_words(page, step)), Cell(examples_in_words(page, at))});
    }
    return {{std::move(table)}};
}

namespace {

Json runner_up_json(const planner::RunnerUp& other) {
    return {{"add", note_names(other.add)}, {"opens", other.opens}, {"costs_more", or_null(other.costs_more)}};
}

Json counts_json(const std::map<std::string, std::int64_t>& counts) {
    Json json = Json::object();
    for (const auto& [kind, count] : counts) json[kind.empty() ? "unknown" : kind] = count;
    return json;
}

Json step_json(const answers::PathAnswer& page, std::size_t at) {
    const planner::Step& step = page.plan.steps[at];
    Json row;
    row["step"] = at + 1;
    row["add"] = note_names(step.add);
    row["opens"] = step.opens;
    row["open"] = step.open;
    row["time"] = step.time;
    row["stall"] = step.is_stall;
    row["asked_for"] = step.is_asked_for;
    row["ids"] = Json::array();
    for (const tune::TuneId id : step.ids) row["ids"].push_back(id.value);
    row["runners_up"] = Json::array();
    for (const planner::RunnerUp& other : step.runners_up) row["runners_up"].push_back(runner_up_json(other));
    row["greedy"] = step.greedy ? runner_up_json(*step.greedy) : Json(nullptr);
    row["pays_off"] =
        step.pays_off ? Json{{"step", step.pays_off->step}, {"opens", step.pays_off->tunes}} : Json(nullptr);
    if (at < page.opens.size()) {
        row["by_rhythm"] = counts_json(page.opens[at].by_rhythm);
        row["by_key"] = counts_json(page.opens[at].by_key);
    }
    return row;
}

Json own_order_json(const planner::OwnOrder& own) {
    Json json;
    json["cost"] = own.completed.cost;
    json["best_cost"] = own.best.cost;
    json["proof"] = planner::proof_token(own.completed.proof == own.best.proof ? own.best.proof : planner::Proof::gap);
    json["steps"] = Json::array();
    for (std::size_t at = 0; at < own.steps.size(); ++at) {
        const planner::OwnStep& step = own.steps[at];
        json["steps"].push_back({{"step", at + 1},
                                 {"add", note_names(step.add)},
                                 {"opens", step.opens},
                                 {"open", step.open},
                                 {"time", step.time},
                                 {"best_open", step.best_open},
                                 {"loses", or_null(step.loses)}});
    }
    return json;
}

Json best_in_json(const answers::PathAnswer& page) {
    const planner::BestIn& best = *page.best_in;
    return {{"steps", page.best_in_steps},
            {"add", note_names(best.add)},
            {"met", best.met},
            {"upper_bound", best.upper_bound},
            {"proof", planner::proof_token(best.proof())}};
}

}  // namespace

std::string as_json(const answers::PathAnswer& page) {
    const planner::Plan& plan = page.plan;
    Json json;
    json["version"] = 1;
    json["have"] = note_names(page.have);
    json["by"] = page.by_name ? "name" : "pitch";
    json["weight_by"] = page.weight_by == answers::WeightBy::equal   ? "equal"
                        : page.weight_by == answers::WeightBy::count ? "count"
                                                                     : "tag";
    json["tunes"] = plan.tunes;
    json["open_now"] = plan.open_now;
    json["steps"] = Json::array();
    for (std::size_t at = 0; at < plan.steps.size(); ++at) json["steps"].push_back(step_json(page, at));
    json["never_open"] = plan.never_open;
    json["without_notes"] = page.without_notes;
    json["out_of_reach"] = page.out_of_reach;
    json["with_other_notes"] = page.with_other_notes;
    json["cost"] = plan.cost;
    json["lower_bound"] = plan.lower_bound;
    json["proof"] = planner::proof_token(plan.proof);
    json["greedy_cost"] = plan.greedy_cost;
    json["free_cost"] = or_null(page.free_cost);
    if (page.own_order) json["own_order"] = own_order_json(*page.own_order);
    if (page.best_in) json["best_in"] = best_in_json(page);
    json["limits"] = {{"states", plan.states}, {"largest_block", plan.largest_block}, {"seconds", page.max_seconds}};
    return finish(json);
}

}  // namespace report
