// Tested by lay_out_test.cc.
#include "syllabus/remarks.h"

namespace syllabus {

namespace {

constexpr int kMostNotesAtOnce = 2;  // without a word. Source: common practice, no source

}  // namespace

std::vector<std::string> remarks_on_groups(const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<std::string> remarks;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        if (const auto& notes = lessons[at].notes; notes && notes->notes.size() > kMostNotesAtOnce)
            remarks.push_back("Lesson " + std::to_string(at + 1) + " brings " + std::to_string(notes->notes.size()) +
                              " notes at once, because no fewer open a tune; --first brings them one by one.");
    for (std::size_t at = lessons.size(); at-- > 0;) {
        const Lesson& lesson = lessons[at];
        if (!lesson.is_held()) continue;
        if (!lesson.tunes.empty())
            remarks.emplace_back("The last lesson that is held brings something new; --replan settles that.");
        break;
    }
    return remarks;
}

std::vector<std::string> remarks_on_empty_places(std::int64_t places) {
    if (places == 0) return {};
    return {std::to_string(places) + (places == 1 ? " place for a new tune stays" : " places for new tunes stay") +
            " empty: no other tune fits the notes that are there by then."};
}

std::vector<std::string> remarks_on_known(const Course& course, const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<std::string> remarks;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        for (const TermTune& tune : lessons[at].tunes)
            for (const auto& [id, who] : course.known_by)
                if (id == tune.id)
                    remarks.push_back("\"" + tune.title + "\" in lesson " + std::to_string(at + 1) + ": " + who +
                                      " already.");
    return remarks;
}

std::vector<std::string> remarks_on_breaks(const std::vector<Lesson>& lessons, std::size_t fixed) {
    std::vector<std::size_t> held;
    for (std::size_t at = fixed; at < lessons.size(); ++at)
        if (lessons[at].is_held()) held.push_back(at);
    std::vector<std::string> remarks;
    for (std::size_t at = 0; at + 1 < held.size(); ++at)
        if (lessons[held[at]].only_goes_over)
            remarks.push_back("Lesson " + std::to_string(held[at] + 1) +
                              " brings nothing new: it is the first after more than two weeks without one.");
    return remarks;
}

}  // namespace syllabus
