#include "report/words/step_reasons.h"

#include <algorithm>

#include "report/words/words.h"

namespace report {

namespace {

constexpr std::size_t kKindsNamed = 3;

// The most frequent kinds first, the rest as a number. `say` puts one into words.
template <typename Say>
std::string counts_in_words(const std::map<std::string, std::int64_t>& counts, Say say) {
    std::vector<std::pair<std::string, std::int64_t>> ranked;
    std::int64_t others = 0;
    for (const auto& [kind, count] : counts) {
        if (kind.empty())
            others += count;
        else
            ranked.emplace_back(kind, count);
    }
    std::stable_sort(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    std::string words;
    for (std::size_t at = 0; at < ranked.size(); ++at) {
        if (at < kKindsNamed)
            words += (words.empty() ? "" : ", ") + say(ranked[at].first, ranked[at].second);
        else
            others += ranked[at].second;
    }
    if (others > 0 && !words.empty()) words += " and " + std::to_string(others) + " more";
    return words;
}

std::string kinds_in_words(const answers::StepOpens& words) {
    const std::string rhythms = counts_in_words(words.by_rhythm, [](const std::string& rhythm, std::int64_t count) {
        return counted(count, rhythm, rhythm_in_plural(rhythm));
    });
    const std::string keys = counts_in_words(
        words.by_key, [](const std::string& key, std::int64_t count) { return std::to_string(count) + " in " + key; });
    if (rhythms.empty() || keys.empty()) return rhythms + keys;
    return rhythms + "; " + keys;
}

std::string costs_in_words(const planner::RunnerUp& other) {
    if (other.is_too_late) return "too late for what must open";
    if (!other.costs_more) return "";
    return *other.costs_more == 0 ? "just as good in the end"
                                  : "which costs " + std::to_string(*other.costs_more) + " more in the end";
}

std::string instead_of(const planner::Step& step, bool by_name) {
    std::string words;
    for (const planner::RunnerUp& other : step.runners_up) {
        const std::string costs = costs_in_words(other);
        words += (words.empty() ? "" : "; ") + step_notes(other.add, by_name) + " would open " +
                 std::to_string(other.opens) + (costs.empty() ? "" : ", " + costs);
    }
    return words.empty() ? "" : " Instead: " + words + ".";
}

std::string what_it_opens(const answers::PathAnswer& page, std::size_t at) {
    const planner::Step& step = page.plan.steps[at];
    const std::string notes = step_notes(step.add, page.by_name);
    if (step.opens == 0) {
        if (is_for_nothing(page, at)) return notes + " opens nothing: no tune needs it.";
        std::string words = notes + " opens nothing yet" + (step.is_asked_for ? ", you asked for it" : "") +
                            "; it pays off at step " + std::to_string(step.pays_off->step) + ", with " +
                            counted(step.pays_off->tunes, "tune that needs it", "tunes that need it");
        if (at < page.opens.size() && !page.opens[at].pays_off_in.empty())
            words += ", such as " + page.opens[at].pays_off_in;
        return words + ".";
    }
    const bool is_several = step.add.size() > 1 && !(page.by_name && !step.is_stall);
    const std::string needers = counted(step.opens, "of your tunes needs only ", "of your tunes need only ");
    std::string words = notes + " now, " + (step.is_asked_for ? "as you asked: " : "because ") + needers +
                        (is_several ? "these" : "this");
    if (step.is_stall)
        words = notes + " together, for no single " + (page.by_name ? "name" : "note") +
                " opens anything here: " + needers + "these";
    const std::string kinds = at < page.opens.size() ? kinds_in_words(page.opens[at]) : "";
    return words + (kinds.empty() ? "" : " (" + kinds + ")") + ".";
}

}  // namespace

std::string step_notes(const music::NoteSet& notes, bool by_name) { return notes_listed(Notes{notes, 0, by_name}); }

bool is_for_nothing(const answers::PathAnswer& page, std::size_t at) {
    const planner::Step& step = page.plan.steps[at];
    return step.opens == 0 && !step.pays_off;
}

std::string reason_of(const answers::PathAnswer& page, std::size_t at) {
    const planner::Step& step = page.plan.steps[at];
    std::string words = what_it_opens(page, at) + instead_of(step, page.by_name);
    if (step.greedy && !step.is_asked_for) {
        words +=
            " Always taking the next best note would learn " + step_notes(step.greedy->add, page.by_name) + " here";
        if (step.greedy->is_too_late) words += ", too late for what must open";
        if (step.greedy->costs_more)
            words += *step.greedy->costs_more == 0
                         ? ", just as good in the end"
                         : ": that costs " + std::to_string(*step.greedy->costs_more) + " more in the end";
        words += ".";
    }
    return words;
}

}  // namespace report
