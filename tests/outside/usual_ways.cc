// The choice of usual ways on the tunes of published books: that it is exact there, and what it comes to.
//
//     usual_ways [EVERY] [INSTRUMENT...]
//
// For every EVERY-th tune (default 20) and each instrument: the way that keeps to usual ways must cost no less than the
// one that may take any, and no more than the one that makes each note by the first way of its table; and no search may
// have been cut short. Prints how many tunes make a note in two ways, both so and with any ways. Exit 1 when one does
// not hold, 77 without books.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "hands/cheapest_way.h"
#include "instruments/known.h"
#include "support/books.h"

namespace {

using instruments::Instrument;
using Line = std::vector<hands::LineNote>;

Instrument with_first_ways(Instrument instrument) {
    for (auto& note : instrument.notes) note.ways.resize(1);
    return instrument;
}

bool has_two_ways(const hands::CheapestWay& way) {
    std::map<int, std::set<const instruments::Way*>> ways;
    for (const hands::Stroke& stroke : way.strokes)
        if (stroke.way != nullptr) ways[stroke.note.midi].insert(stroke.way);
    return std::any_of(ways.begin(), ways.end(), [](const auto& note) { return note.second.size() > 1; });
}

bool measure(const std::vector<Line>& lines, const std::string& id) {
    const Instrument* steady = instruments::find(id);
    if (steady == nullptr) {
        std::fprintf(stderr, "no instrument %s\n", id.c_str());
        return false;
    }
    const Instrument any = steady->with_any_ways();
    const Instrument first = with_first_ways(*steady);
    int leaving = 0, leaving_any = 0, cut_short = 0, wrong = 0;
    double longest = 0, sum = 0;
    for (const Line& line : lines) {
        const auto start = std::chrono::steady_clock::now();
        const auto way = hands::find_cheapest_way(line, *steady, steady->motion_costs);
        const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
        longest = std::max(longest, seconds);
        sum += seconds;
        const auto loose = hands::find_cheapest_way(line, any, any.motion_costs);
        const auto by_table = hands::find_cheapest_way(line, first, first.motion_costs);
        wrong += way.cost < loose.cost || way.cost > by_table.cost ? 1 : 0;
        cut_short += way.lower_bound < way.cost ? 1 : 0;
        leaving += has_two_ways(way) ? 1 : 0;
        leaving_any += has_two_ways(loose) ? 1 : 0;
    }
    std::printf(
        "%-16s %5zu tunes; a note in two ways: %5d (any ways: %5d); cut short %d; wrong %d; %.1f ms, at most %.0f\n",
        id.c_str(), lines.size(), leaving, leaving_any, cut_short, wrong,
        1000 * sum / static_cast<double>(std::max<std::size_t>(lines.size(), 1)), 1000 * longest);
    return cut_short == 0 && wrong == 0;
}

}  // namespace

int main(int argc, char** argv) {
    const auto shared = support::find_shared();
    if (!shared) {
        std::puts("skipped: no books");
        return support::kSkipped;
    }
    const std::size_t every = argc > 1 ? std::max<std::size_t>(std::strtoul(argv[1], nullptr, 10), 1) : 20;
    std::vector<Line> lines;
    std::size_t at = 0;
    for (const support::BookTune& tune : support::read_books(*shared))
        if (at++ % every == 0)
            if (Line line = hands::top_of(hands::line_of(tune.setting.melody)); !line.empty())
                lines.push_back(std::move(line));
    std::vector<std::string> ids(argv + std::min(argc, 2), argv + argc);
    if (ids.empty())
        ids = {"bc21", "dg23", "anglo30", "fiddle-1", "guitar-dadgad", "banjo5-gdgbd", "flute-d", "harp-eb"};
    bool all_hold = true;
    for (const std::string& id : ids) all_hold = measure(lines, id) && all_hold;
    return all_hold ? EXIT_SUCCESS : EXIT_FAILURE;
}
