#include "hands/way_search.h"

#include <algorithm>
#include <bitset>
#include <tuple>

#include "hands/time_before.h"

namespace hands {

using instruments::Instrument;
using instruments::InstrumentNote;
using instruments::Motion;
using instruments::MotionCosts;
using instruments::Way;

namespace {

constexpr char kUnset = 0;

// At least one where another way is taken for the same note again.
int fingers_moved(const Way& from, const Way& to) {
    return &from == &to ? 0 : std::max(1, fingers_changed(from.fingering, to.fingering));
}

void add(MotionCounts& sum, const MotionCounts& more) {
    for (std::size_t at = 0; at < sum.size(); ++at) sum[at] += more[at];
}

}  // namespace

Levers::Levers(const std::vector<LineNote>& line, const Instrument& instrument, bool are_judged) {
    if (!are_judged) return;
    std::map<std::string, std::map<std::string, char>> states;
    for (const LineNote& note : line)
        if (const InstrumentNote* found = instrument.note(note.midi))
            for (const Way& way : found->ways) {
                auto& of_string = states[way.row];
                of_string.try_emplace(way.position, static_cast<char>(of_string.size() + 1));
            }
    for (auto& [row, of_string] : states)
        if (!row.empty() && of_string.size() > 1) strings_.try_emplace(row, strings_.size(), std::move(of_string));
}

std::string Levers::unset() const { return std::string(strings_.size(), kUnset); }

int Levers::set_for(const Way& way, std::string& levers) const {
    const auto found = strings_.find(way.row);
    if (found == strings_.end()) return 0;
    const char wanted = found->second.second.at(way.position);
    char& state = levers[found->second.first];
    const int changes = state != kUnset && state != wanted ? 1 : 0;
    state = wanted;
    return changes;
}

WaySearch::WaySearch(const std::vector<LineNote>& line, const Instrument& instrument, const MotionCosts& costs)
    : line_(line),
      instrument_(instrument),
      costs_(costs),
      levers_(line, instrument, costs[static_cast<std::size_t>(Motion::lever)] > 0) {
    std::bitset<music::kMidiNotes> met;
    const InstrumentNote* before = nullptr;
    for (const LineNote& each : line_) {
        const auto midi = static_cast<std::size_t>(each.midi);
        is_first_.push_back(!met[midi]);
        met.set(midi);
        const InstrumentNote* note = instrument_.note(each.midi);
        for (std::size_t at = 0; note != nullptr && at < note->ways.size(); ++at) {
            const Way& to = note->ways[at];
            if (is_first_.back()) {
                const MotionCounts counts = motions_in(to);
                in_.try_emplace(&to, Motions{counts, cost_of(counts), 0});
            }
            for (std::size_t other = 0; before != nullptr && other < before->ways.size(); ++other) {
                const Way& from = before->ways[other];
                const auto [entry, is_new] = between_.try_emplace({&from, &to});
                if (!is_new) continue;
                const MotionCounts counts = motions_between(instrument_, from, to);
                entry->second = {counts, cost_of(counts), fingers_moved(from, to)};
            }
        }
        before = note;
    }
}

CheapestWay WaySearch::run(const UsualWays& usual) const {
    CheapestWay answer;
    std::vector<Stage> stages;
    std::size_t first = 0;  // where the hand began anew
    for (std::size_t at = 0; at < line_.size(); ++at) {
        stages.push_back(stage_of(at, at > first ? &stages.back() : nullptr, usual));
        if (!stages.back().empty()) continue;
        write_down(stages, first, at, answer);
        ++answer.missing;
        answer.strokes.push_back({line_[at], nullptr, {}, false, 0});
        first = at + 1;
    }
    write_down(stages, first, line_.size(), answer);
    for (const Stroke& stroke : answer.strokes) {
        answer.cost += stroke.cost;
        add(answer.motions, stroke.motions);
        if (stroke.is_quick) add(answer.quick, stroke.motions);
    }
    answer.lower_bound = answer.cost;
    return answer;
}

bool WaySearch::is_better(const Place& a, const Place& b) {
    return std::tie(a.cost, a.moved) < std::tie(b.cost, b.moved);
}

void WaySearch::offer(Place place, Stage& stage, std::map<std::string, std::size_t>& by_levers) {
    const auto [entry, is_new] = by_levers.try_emplace(place.levers, stage.size());
    if (is_new)
        stage.push_back(std::move(place));
    else if (is_better(place, stage[entry->second]))
        stage[entry->second] = std::move(place);
}

int WaySearch::cost_of(const MotionCounts& motions) const {
    int cost = 0;
    for (std::size_t at = 0; at < motions.size(); ++at) cost += motions[at] * costs_[at];
    return cost;
}

bool WaySearch::comes_quickly(std::size_t at) const { return at > 0 && time_before(line_, at) < kLongNote; }

const WaySearch::Motions& WaySearch::between(const Way& from, const Way& to) const { return between_.at({&from, &to}); }

// Places to come to a note, each the cheapest of its kind, in the order of the note's ways; none where the instrument
// has not the note.
WaySearch::Stage WaySearch::stage_of(std::size_t at, const Stage* before, const UsualWays& usual) const {
    const InstrumentNote* note = instrument_.note(line_[at].midi);
    if (note == nullptr) return {};
    Stage stage;
    for (const Way& way : note->ways) {
        std::map<std::string, std::size_t> by_levers;
        if (before == nullptr) offer(arrive(at, way, nullptr, usual), stage, by_levers);
        for (std::size_t from = 0; before != nullptr && from < before->size(); ++from) {
            Place place = arrive(at, way, &(*before)[from], usual);
            place.from = from;
            offer(std::move(place), stage, by_levers);
        }
    }
    if (stage.size() > kMostLeverSettings) {
        std::stable_sort(stage.begin(), stage.end(), is_better);
        stage.resize(kMostLeverSettings);
    }
    return stage;
}

WaySearch::Place WaySearch::arrive(std::size_t at, const Way& way, const Place* before, const UsualWays& usual) const {
    Place place;
    place.way = &way;
    place.levers = before ? before->levers : levers_.unset();
    const Motions& in = in_.at(&way);
    place.own_cost = parts_for(line_[at].length) * in.cost;
    place.motions = in.counts;

    MotionCounts by_the_way{};  // that no table of pairs can hold
    count_of(by_the_way, Motion::lever) = levers_.set_for(way, place.levers);
    if (const Way* usual_way = usual[static_cast<std::size_t>(line_[at].midi)]) {
        const bool is_taken_up = is_first_[at] && usual_way != &instrument_.note(line_[at].midi)->ways.front();
        count_of(by_the_way, Motion::second_way) = (is_taken_up ? 1 : 0) + (&way == usual_way ? 0 : 1);
    }
    int cost = cost_of(by_the_way);
    add(place.motions, by_the_way);
    if (before != nullptr) {
        const Motions& moves = between(*before->way, way);
        cost += moves.cost;
        add(place.motions, moves.counts);
        place.moved = before->moved + moves.fingers;
        place.cost = before->cost;
    }
    place.own_cost += parts_for(at > 0 ? time_before(line_, at) : kAllTheTime) * cost;
    place.cost += place.own_cost;
    return place;
}

// The cheapest way from note `first` to before `end`.
void WaySearch::write_down(const std::vector<Stage>& stages, std::size_t first, std::size_t end,
                           CheapestWay& answer) const {
    if (end <= first) return;
    const Stage& last = stages[end - 1];
    const auto best = std::min_element(last.begin(), last.end(), is_better);
    answer.fingers_moved += best->moved;
    auto at_place = static_cast<std::size_t>(best - last.begin());
    const std::size_t begin = answer.strokes.size();
    for (std::size_t at = end; at-- > first;) {
        const Place& place = stages[at][at_place];
        answer.strokes.push_back(
            {line_[at], place.way, place.motions, comes_quickly(at) && at > first, place.own_cost});
        at_place = place.from;
    }
    std::reverse(answer.strokes.begin() + static_cast<std::ptrdiff_t>(begin), answer.strokes.end());
}

}  // namespace hands
