// Tested by closing_sets_test.cc.
#include "syllabus/closing_sets.h"

#include <algorithm>

namespace syllabus {

namespace {

constexpr std::size_t kLargestSet = 3;

void add_sets(const std::string& rhythm, const std::vector<TermTune>& tunes, std::vector<ClosingSet>& sets) {
    const std::size_t most = rhythm.empty() ? 1 : kLargestSet;
    for (std::size_t at = 0; at < tunes.size();) {
        const std::size_t left = tunes.size() - at;
        const std::size_t count = left == kLargestSet + 1 ? std::min<std::size_t>(2, most) : std::min(left, most);
        ClosingSet set{
            rhythm,
            {tunes.begin() + static_cast<std::ptrdiff_t>(at), tunes.begin() + static_cast<std::ptrdiff_t>(at + count)},
            0};
        for (const TermTune& tune : set.tunes) set.seconds += tune.seconds;
        sets.push_back(std::move(set));
        at += count;
    }
}

}  // namespace

std::vector<ClosingSet> closing_sets(const std::vector<Lesson>& lessons) {
    std::vector<std::pair<std::string, std::vector<TermTune>>> by_rhythm;  // in the order first met
    for (const Lesson& lesson : lessons) {
        if (!lesson.is_held()) continue;
        for (const TermTune& tune : lesson.tunes) {
            auto place = std::find_if(by_rhythm.begin(), by_rhythm.end(),
                                      [&](const auto& one) { return one.first == tune.rhythm; });
            if (place == by_rhythm.end()) place = by_rhythm.insert(by_rhythm.end(), {tune.rhythm, {}});
            place->second.push_back(tune);
        }
    }
    std::vector<ClosingSet> sets;
    for (const auto& [rhythm, tunes] : by_rhythm) add_sets(rhythm, tunes, sets);
    return sets;
}

}  // namespace syllabus
