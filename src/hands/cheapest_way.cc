#include "hands/cheapest_way.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace hands {

using instruments::Instrument;
using instruments::InstrumentNote;
using instruments::Motion;
using instruments::MotionCosts;
using instruments::Way;

namespace {

constexpr char kUnset = 0;

// How the hand may have come to a note: by which way, with the levers how, and from which place of the note before.
struct Place {
    const Way* way = nullptr;
    std::string levers;  // a sign for each string that is wanted in two states: kUnset, or its state
    std::int64_t cost = 0;
    std::int64_t moved = 0;  // fingers, between places that cost the same
    std::size_t from = 0;
    MotionCounts motions{};
    int own_cost = 0;
};

using Stage = std::vector<Place>;

bool is_better(const Place& a, const Place& b) { return std::tie(a.cost, a.moved) < std::tie(b.cost, b.moved); }

// At least one where another way is taken for the same note again.
int fingers_moved(const Way& from, const Way& to) {
    return &from == &to ? 0 : std::max(1, fingers_changed(from.fingering, to.fingering));
}

// Which strings of a lever harp the tune wants in two states, and by what sign a state is known.
class Levers {
public:
    Levers(const std::vector<LineNote>& line, const Instrument& instrument, bool are_judged) {
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

    std::string unset() const { return std::string(strings_.size(), kUnset); }

    // Sets the string of `way` as it is wanted; 1 where it had been set otherwise.
    int set_for(const Way& way, std::string& levers) const {
        const auto found = strings_.find(way.row);
        if (found == strings_.end()) return 0;
        const char wanted = found->second.second.at(way.position);
        char& state = levers[found->second.first];
        const int changes = state != kUnset && state != wanted ? 1 : 0;
        state = wanted;
        return changes;
    }

private:
    std::map<std::string, std::pair<std::size_t, std::map<std::string, char>>> strings_;
};

int cost_of(const MotionCounts& motions, const MotionCosts& costs) {
    int cost = 0;
    for (std::size_t at = 0; at < motions.size(); ++at) cost += motions[at] * costs[at];
    return cost;
}

void add(MotionCounts& sum, const MotionCounts& more) {
    for (std::size_t at = 0; at < sum.size(); ++at) sum[at] += more[at];
}

// Whether there is no time before the note.
bool comes_quickly(const std::vector<LineNote>& line, std::size_t at) {
    return at > 0 && !line[at].rests_before && line[at - 1].length < kLongNote;
}

class Search {
public:
    Search(const std::vector<LineNote>& line, const Instrument& instrument, const MotionCosts& costs)
        : line_(line),
          instrument_(instrument),
          costs_(costs),
          levers_(line, instrument, costs[static_cast<std::size_t>(Motion::lever)] > 0) {}

    CheapestWay run() {
        CheapestWay answer;
        for (std::size_t at = 0; at < line_.size(); ++at) {
            stages_.push_back(stage_of(at));
            if (stages_.back().empty()) {
                close(answer);
                ++answer.missing;
                answer.strokes.push_back({line_[at], nullptr, {}, false, 0});
                first_ = at + 1;
            }
        }
        close(answer);
        for (const Stroke& stroke : answer.strokes) {
            answer.cost += stroke.cost;
            add(answer.motions, stroke.motions);
            if (stroke.is_quick) add(answer.quick, stroke.motions);
        }
        return answer;
    }

private:
    // Places to come to a note, each the cheapest of its kind, in the order of the note's ways; none where the
    // instrument has not the note.
    Stage stage_of(std::size_t at) const {
        const InstrumentNote* note = instrument_.note(line_[at].midi);
        if (note == nullptr) return {};
        Stage stage;
        for (const Way& way : note->ways) {
            std::map<std::string, std::size_t> by_levers;
            if (at == first_)
                offer(arrive(at, way, nullptr, 0), stage, by_levers);
            else
                for (std::size_t from = 0; from < stages_[at - 1].size(); ++from)
                    offer(arrive(at, way, &stages_[at - 1][from], from), stage, by_levers);
        }
        if (stage.size() > kMostLeverSettings) {
            std::stable_sort(stage.begin(), stage.end(), is_better);
            stage.resize(kMostLeverSettings);
        }
        return stage;
    }

    Place arrive(std::size_t at, const Way& way, const Place* before, std::size_t from) const {
        Place place{&way,
                    before ? before->levers : levers_.unset(),
                    before ? before->cost : 0,
                    before ? before->moved : 0,
                    from,
                    {},
                    0};
        const MotionCounts in = motions_in(way);
        const int own_factor = line_[at].length < kLongNote ? kQuickFactor : 1;
        place.own_cost = own_factor * cost_of(in, costs_);
        place.motions = in;
        MotionCounts between{};
        if (before) {
            between = motions_between(instrument_, *before->way, way);
            place.moved += fingers_moved(*before->way, way);
        }
        count_of(between, Motion::lever) = levers_.set_for(way, place.levers);
        place.own_cost += (comes_quickly(line_, at) ? kQuickFactor : 1) * cost_of(between, costs_);
        add(place.motions, between);
        place.cost += place.own_cost;
        return place;
    }

    static void offer(Place place, Stage& stage, std::map<std::string, std::size_t>& by_levers) {
        const auto [entry, is_new] = by_levers.try_emplace(place.levers, stage.size());
        if (is_new)
            stage.push_back(std::move(place));
        else if (is_better(place, stage[entry->second]))
            stage[entry->second] = std::move(place);
    }

    // Writes down the cheapest way from first_ to the end of what was searched.
    void close(CheapestWay& answer) const {
        std::size_t end = stages_.size();
        if (end > first_ && stages_[end - 1].empty()) --end;
        if (end <= first_) return;
        const Stage& last = stages_[end - 1];
        std::size_t at_place =
            static_cast<std::size_t>(std::min_element(last.begin(), last.end(), is_better) - last.begin());
        const std::size_t begin = answer.strokes.size();
        for (std::size_t at = end; at-- > first_;) {
            const Place& place = stages_[at][at_place];
            answer.strokes.push_back(
                {line_[at], place.way, place.motions, at > first_ && comes_quickly(line_, at), place.own_cost});
            at_place = place.from;
        }
        std::reverse(answer.strokes.begin() + static_cast<std::ptrdiff_t>(begin), answer.strokes.end());
    }

    const std::vector<LineNote>& line_;
    const Instrument& instrument_;
    const MotionCosts& costs_;
    Levers levers_;
    std::vector<Stage> stages_;
    std::size_t first_ = 0;  // where the hand began anew
};

}  // namespace

CheapestWay find_cheapest_way(const std::vector<LineNote>& top_line, const Instrument& instrument,
                              const MotionCosts& costs) {
    return Search(top_line, instrument, costs).run();
}

int fewest(Motion motion, const std::vector<LineNote>& top_line, const Instrument& instrument) {
    std::vector<LineNote> unhurried = top_line;  // so that quick ones count like others
    for (LineNote& note : unhurried) note.length = kLongNote;
    MotionCosts costs{};
    costs[static_cast<std::size_t>(motion)] = 1;
    return count_of(find_cheapest_way(unhurried, instrument, costs).motions, motion);
}

std::optional<HardestBar> hardest_bar(const CheapestWay& way) {
    std::optional<HardestBar> hardest;
    for (std::size_t at = 0; at < way.strokes.size();) {
        HardestBar bar{way.strokes[at].note.bar, 0, {}};
        const std::size_t index = way.strokes[at].note.bar_index;
        for (; at < way.strokes.size() && way.strokes[at].note.bar_index == index; ++at) {
            bar.cost += way.strokes[at].cost;
            add(bar.motions, way.strokes[at].motions);
        }
        if (bar.cost > 0 && (!hardest || bar.cost > hardest->cost)) hardest = bar;
    }
    return hardest;
}

}  // namespace hands
