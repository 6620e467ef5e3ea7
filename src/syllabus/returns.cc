// Tested by returns_test.cc.
#include "syllabus/returns.h"

namespace syllabus {

std::vector<std::string> plan_returns(std::vector<Lesson>& lessons, std::size_t first) {
    std::vector<std::size_t> held;
    for (std::size_t at = 0; at < lessons.size(); ++at) {
        if (at >= first) lessons[at].again.clear();
        if (lessons[at].is_held()) held.push_back(at);
    }
    const auto bring_back = [&](std::size_t at, const TermTune& tune) {
        if (at >= first) lessons[at].again.push_back(tune);
    };
    std::vector<std::string> remarks;
    for (std::size_t at = 0; at < held.size(); ++at) {
        const Lesson& lesson = lessons[held[at]];
        for (const TermTune& tune : std::vector<TermTune>(lesson.tunes)) {
            if (at + 1 < held.size()) bring_back(held[at + 1], tune);
            std::size_t again = at + 2;
            while (again < held.size() && lessons[held[again]].date - lesson.date < kSoonest) ++again;
            if (again >= held.size()) continue;
            bring_back(held[again], tune);
            const auto wait = lessons[held[again]].date - lesson.date;
            if (wait > kLatest && held[again] >= first)
                remarks.push_back("\"" + tune.title + "\" comes back the second time only after " +
                                  std::to_string(wait.count()) + " days: no other lesson is held in its third week.");
        }
    }
    return remarks;
}

}  // namespace syllabus
