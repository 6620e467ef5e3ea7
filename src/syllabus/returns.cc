// Tested by returns_test.cc.
#include "syllabus/returns.h"

#include <algorithm>

namespace syllabus {

namespace {

class Returns {
public:
    Returns(std::vector<Lesson>& lessons, std::size_t first) : lessons_(lessons), first_(first) {
        for (std::size_t at = 0; at < lessons.size(); ++at)
            if (lessons[at].is_held()) held_.push_back(at);
    }

    std::vector<Telling> plan() {
        for (std::size_t at = first_; at < lessons_.size(); ++at) lessons_[at].again.clear();
        for (std::size_t at = 0; at < held_.size(); ++at)
            for (const TermTune& tune : lessons_[held_[at]].tunes) bring_back_twice(tune, at);
        return std::move(remarks_);
    }

private:
    // `held` and the places below: into held_.
    void bring_back_twice(const TermTune& tune, std::size_t held) {
        const auto is_next = [](std::size_t) { return true; };
        const std::size_t once = first_after(held, tune.id, is_next);
        if (once == held_.size()) return;
        bring_back(once, tune);
        const auto waited = [&](std::size_t at) { return lessons_[held_[at]].date - lessons_[held_[held]].date; };
        std::size_t twice = first_after(once, tune.id, [&](std::size_t at) { return waited(at) >= kSoonest; });
        if (twice == held_.size()) return;
        if (held_[twice] >= first_)
            while (twice + 1 < held_.size() && waited(twice + 1) <= kLatest) ++twice;
        bring_back(twice, tune);
        // A first return that is late already was as much as the dates allowed.
        if (waited(twice) > kLatest && waited(once) < kSoonest && held_[twice] >= first_)
            remarks_.emplace_back(ReturnsLate{tune.title, waited(twice).count()});
    }

    // A lesson that stands counts only if the tune came back in it.
    template <typename Test>
    std::size_t first_after(std::size_t held, tune::TuneId id, const Test& test) const {
        for (std::size_t at = held + 1; at < held_.size(); ++at)
            if ((held_[at] >= first_ || came_back(held_[at], id)) && test(at)) return at;
        return held_.size();
    }

    bool came_back(std::size_t lesson, tune::TuneId id) const {
        const std::vector<TermTune>& again = lessons_[lesson].again;
        return std::any_of(again.begin(), again.end(), [&](const TermTune& tune) { return tune.id == id; });
    }

    void bring_back(std::size_t at, const TermTune& tune) {
        if (held_[at] >= first_) lessons_[held_[at]].again.push_back(tune);
    }

    std::vector<Lesson>& lessons_;
    std::size_t first_;
    std::vector<std::size_t> held_;
    std::vector<Telling> remarks_;
};

}  // namespace

std::vector<Telling> plan_returns(std::vector<Lesson>& lessons, std::size_t first) {
    return Returns(lessons, first).plan();
}

}  // namespace syllabus
