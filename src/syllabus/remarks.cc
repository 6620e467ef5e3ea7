// Tested by lay_out_test.cc.
#include "syllabus/remarks.h"

namespace syllabus {

namespace {

constexpr int kMostNotesAtOnce = 2;  // without a word. Source: common practice, no source

}  // namespace

std::vector<Telling> remarks_on_groups(const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<Telling> remarks;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        if (const auto& notes = lessons[at].notes; notes && notes->notes.size() > kMostNotesAtOnce)
            remarks.emplace_back(ManyNotesAtOnce{static_cast<std::int64_t>(at + 1), notes->notes.size()});
    for (std::size_t at = lessons.size(); at-- > 0;) {
        const Lesson& lesson = lessons[at];
        if (!lesson.is_held()) continue;
        if (!lesson.tunes.empty()) remarks.emplace_back(NewInLastLesson{});
        break;
    }
    return remarks;
}

std::vector<Telling> remarks_on_empty_places(std::int64_t places) {
    if (places == 0) return {};
    return {EmptyPlaces{places}};
}

std::vector<Telling> remarks_on_known(const Course& course, const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<Telling> remarks;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        for (const TermTune& tune : lessons[at].tunes)
            if (const auto known = course.known_by.find(tune.id); known != course.known_by.end())
                remarks.emplace_back(KnownToSome{tune.title, static_cast<std::int64_t>(at + 1), known->second});
    return remarks;
}

std::vector<Telling> remarks_on_breaks(const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<std::size_t> held;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        if (lessons[at].is_held()) held.push_back(at);
    std::vector<Telling> remarks;
    for (std::size_t at = 0; at + 1 < held.size(); ++at)
        if (lessons[held[at]].only_goes_over) remarks.emplace_back(AfterBreak{static_cast<std::int64_t>(held[at] + 1)});
    return remarks;
}

}  // namespace syllabus
