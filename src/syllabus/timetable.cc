// Moment by moment through the term, keeping each state the class can be in once, at its least cost: states that differ
// only in tunes which cost the same are one. A state is dropped when even the least that may lie ahead of it
// (least_ahead.h) is no better than a timetable already found; the first ones are found by keeping few states a moment.
// Where the states run out, the least of the dropped ones is the bound. Tested by timetable_test.cc against every
// timetable there is.
#include "syllabus/timetable.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <string>
#include <unordered_map>

#include "base/invariant.h"
#include "syllabus/least_ahead.h"
#include "syllabus/progress.h"
#include "syllabus/shelves.h"

namespace syllabus {

namespace {

constexpr int kNothing = -1;    // no step, or no tune
constexpr int kBringStep = -2;  // else the shelf a tune is taken from

struct State {
    Progress progress;
    std::size_t begun = 0;             // of Frame::begin
    std::vector<std::uint16_t> taken;  // from each shelf
    Cost cost;
    Cost bound;
    std::size_t trail = 0;  // how it was reached
};

struct Footprint {
    std::size_t before = 0;
    int choice = kNothing;
};

// Before the first lesson: wishes that none is in time for, and all that was promised.
Cost cost_of_wishes(const Frame& frame) {
    Cost cost;
    cost[Criterion::wishes_missed] = frame.missed_anyway;
    for (const Piece& piece : frame.pieces) {
        cost[Criterion::wishes_missed] += piece.is_must && !piece.must_by ? 1 : 0;
        cost[Criterion::left_behind] += piece.costs_left_behind();
    }
    return cost;
}

class Search {
public:
    explicit Search(const Frame& frame)
        : frame_(frame), shelves_(frame), moments_(moments_of(frame)), ahead_(frame, shelves_, moments_) {
        tunes_left_.assign(moments_.size() + 1, 0);
        for (std::size_t at = moments_.size(); at-- > 0;)
            tunes_left_[at] = tunes_left_[at + 1] + (moments_[at].kind == Moment::Kind::takes_tune ? 1 : 0);
        is_any_promised_ = std::any_of(frame.pieces.begin(), frame.pieces.end(),
                                       [](const Piece& piece) { return piece.promised != Promise::none; });
        for (const Shelf& shelf : shelves_.all()) {
            if (shelf.opens > frame.steps) continue;
            supply_ += static_cast<std::int64_t>(shelf.pieces.size());
            std::int64_t most = 0;
            for (const std::size_t piece : shelf.pieces) most = std::max(most, frame.pieces[piece].asked_for);
            most_asked_for_ = std::max(most_asked_for_, most);
        }
    }

    Timetable find() {
        State start{Progress(frame_), 0, std::vector<std::uint16_t>(shelves_.all().size(), 0), {}, {}, 0};
        start.cost = cost_of_wishes(frame_);
        start.bound = bound_of(start, 0);
        const Cost least = start.bound;
        Timetable best;
        for (const std::size_t width : {std::size_t{60}, std::size_t{1000}, frame_.max_states}) {
            go_through(start, std::min(width, frame_.max_states), best);
            if (is_found_ && (best.cost == least || !dropped_)) break;
            if (states_ >= frame_.max_states) break;
        }
        best.bound = dropped_ ? std::max(least, std::min(*dropped_, best.cost)) : best.cost;
        if (best.cost == least) best.bound = least;
        best.states = states_;
        INVARIANT(best.cost == cost_of(frame_, best.lessons));
        return best;
    }

private:
    // At most `width` states a moment; all of them as long as frame_.max_states lasts.
    void go_through(const State& start, std::size_t width, Timetable& best) {
        dropped_.reset();
        trail_.assign(1, {});
        layer_.assign(1, start);
        const std::size_t before = states_;
        for (std::size_t moment = 0; moment < moments_.size(); ++moment) {
            next_.clear();
            places_.clear();
            for (const State& state : layer_) go_on(state, moment, best);
            const std::size_t used = states_ - before;
            const std::size_t left = frame_.max_states > used ? frame_.max_states - used : 0;
            keep(std::min(width, std::max<std::size_t>(left / (moments_.size() - moment), kNarrowest)));
            std::swap(layer_, next_);
        }
        for (State& state : layer_) {
            if (is_found_ && !(state.cost < best.cost)) continue;
            is_found_ = true;
            best.cost = state.cost;
            best.lessons = retrace(state.trail);
        }
    }

    static constexpr std::size_t kNarrowest = 20;

    void go_on(const State& state, std::size_t moment, const Timetable& best) {
        const auto [kind, lesson] = moments_[moment];
        if (kind == Moment::Kind::closes) {
            State next = state;
            next.cost += next.progress.end_lesson(frame_);
            const bool is_last = moment + 1 == moments_.size();
            for (const std::size_t shelf : shelves_.musts()) {
                if (state.taken[shelf] > 0) continue;
                const auto by = shelves_.all()[shelf].must_by;
                if (by == lesson) ++next.cost[Criterion::wishes_missed];
                if (by.value_or(0) <= lesson) ++next.cost[Criterion::wishes_late];
            }
            if (is_last) {
                next.cost += next.progress.end_term(frame_);
                next.cost[Criterion::wishes_missed] += static_cast<std::int64_t>(frame_.begin.size() - next.begun);
            }
            add(std::move(next), moment, kNothing, best);
            return;
        }
        if (kind == Moment::Kind::opens) {
            if (state.progress.may_bring(frame_, frame_.places[lesson])) {
                State next = state;
                next.cost += next.progress.bring_step(lesson);
                add(std::move(next), moment, kBringStep, best);
            }
            add(State(state), moment, kNothing, best);
            return;
        }
        if (state.begun < frame_.begin.size()) {
            take(state, shelves_.of_beginning(state.begun), moment, best);
        } else {
            for (std::size_t shelf = 0; shelf < shelves_.all().size(); ++shelf) take(state, shelf, moment, best);
        }
        State next = state;
        next.cost += next.progress.leave_empty();
        add(std::move(next), moment, kNothing, best);
    }

    void take(const State& state, std::size_t at, std::size_t moment, const Timetable& best) {
        const Shelf& shelf = shelves_.all()[at];
        if (shelf.opens > state.progress.step() || state.taken[at] >= shelf.pieces.size()) return;
        const Piece& piece = frame_.pieces[shelf.pieces[state.taken[at]]];
        State next = state;
        const std::size_t lesson = moments_[moment].lesson;
        next.cost += next.progress.teach(lesson, shelf.opens, shelf.use, shelf.rhythm, piece.asked_for, piece.hardness);
        next.cost[Criterion::left_behind] -= piece.costs_left_behind();
        ++next.taken[at];
        if (next.begun < frame_.begin.size()) ++next.begun;
        add(std::move(next), moment, static_cast<int>(at), best);
    }

    void add(State&& state, std::size_t moment, int choice, const Timetable& best) {
        state.bound = bound_of(state, moment + 1);
        if (is_found_ && !(state.bound < best.cost)) return;
        ++states_;
        const auto [place, is_new] = places_.try_emplace(key_of(state), next_.size());
        if (!is_new && !(state.cost < next_[place->second].cost)) return;
        trail_.push_back({state.trail, choice});
        state.trail = trail_.size() - 1;
        if (is_new)
            next_.push_back(std::move(state));
        else
            next_[place->second] = std::move(state);
    }

    void keep(std::size_t width) {
        if (next_.size() <= width) return;
        std::vector<std::size_t> order(next_.size());
        std::iota(order.begin(), order.end(), 0);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return next_[a].bound < next_[b].bound; });
        const Cost& least = next_[order[width]].bound;
        dropped_ = dropped_ ? std::min(*dropped_, least) : least;
        std::vector<State> kept;
        for (std::size_t at = 0; at < width; ++at) kept.push_back(std::move(next_[order[at]]));
        next_ = std::move(kept);
    }

    // What else the state is, the cost apart, decides all that can follow.
    std::string key_of(const State& state) const {
        std::string key;
        const auto put = [&key](std::size_t value) {
            key += static_cast<char>(value & 0xFF);
            key += static_cast<char>(value >> 8 & 0xFF);
        };
        const Progress& progress = state.progress;
        put(progress.step());
        put(static_cast<std::size_t>(progress.since()));
        put(static_cast<std::size_t>((progress.tunes_since() * 3 + progress.run()) * 2 +
                                     (progress.is_alone() ? 1 : 0)));
        put(static_cast<std::size_t>(progress.rhythm() ? *progress.rhythm() + 1 : 0));
        put(state.begun);
        for (std::size_t at = 0; at < state.taken.size(); ++at)
            if (const std::size_t most = shelves_.all()[at].alike_from; most > 0)
                put(std::min<std::size_t>(state.taken[at], most));
        return key;
    }

    Cost bound_of(const State& state, std::size_t moment) {
        if (moment == moments_.size()) return state.cost;
        Cost ahead = ahead_.from(moment, state.progress);
        std::int64_t taken = 0;
        for (const std::uint16_t count : state.taken) taken += count;
        const std::int64_t empty = tunes_left_[moment] - (supply_ - taken);
        if (empty > ahead[Criterion::empty_places]) {
            // Fewer tunes than places: nothing is known of what else such a timetable costs but that it is this much.
            Cost scarce;
            scarce[Criterion::empty_places] = empty;
            scarce[Criterion::tunes_late] = least_late(moment, tunes_left_[moment] - empty);
            scarce[Criterion::notes_not_taught] = -static_cast<std::int64_t>(frame_.steps - state.progress.step());
            scarce[Criterion::not_asked_for] = -most_asked_for_ * tunes_left_[moment];
            ahead = scarce;
        }
        ahead[Criterion::wishes_missed] += wishes_lost(state, moment);
        ahead[Criterion::wishes_late] += lessons_late(state, moment);
        ahead[Criterion::left_behind] -= can_be_kept(state, moment);
        return state.cost + ahead;
    }

    // Of so many tunes taught one after the other from here on.
    std::int64_t least_late(std::size_t moment, std::int64_t tunes) const {
        std::int64_t late = 0;
        for (; tunes > 0 && moment < moments_.size(); ++moment) {
            if (moments_[moment].kind != Moment::Kind::takes_tune) continue;
            late += static_cast<std::int64_t>(moments_[moment].lesson);
            --tunes;
        }
        return late;
    }

    // At least so many of the tunes that must still come will not come in time.
    std::int64_t wishes_lost(const State& state, std::size_t moment) const {
        std::int64_t lost = 0, in_time = 0, most_over = 0;
        for (const std::size_t at : shelves_.musts()) {
            const Shelf& shelf = shelves_.all()[at];
            if (state.taken[at] > 0 || !shelf.must_by || *shelf.must_by < moments_[moment].lesson) continue;
            if (first_lesson_of(shelf.opens, state.progress, moment) > *shelf.must_by) {
                ++lost;
                continue;
            }
            std::int64_t places = 0;
            for (std::size_t later = moment; later < moments_.size() && moments_[later].lesson <= *shelf.must_by;
                 ++later)
                places += moments_[later].kind == Moment::Kind::takes_tune ? 1 : 0;
            most_over = std::max(most_over, ++in_time - places);
        }
        return lost + most_over;
    }

    // At least so many lessons, added up, the tunes that must come and have not yet will be late: in each lesson those
    // that are due and cannot have come, for want of their notes or of places.
    std::int64_t lessons_late(const State& state, std::size_t moment) const {
        std::vector<std::pair<std::size_t, std::size_t>> waiting;  // due from the end of; first that can bring it
        for (const std::size_t at : shelves_.musts()) {
            const Shelf& shelf = shelves_.all()[at];
            if (state.taken[at] == 0)
                waiting.emplace_back(shelf.must_by.value_or(0), first_lesson_of(shelf.opens, state.progress, moment));
        }
        if (waiting.empty()) return 0;
        std::int64_t late = 0, places = 0;
        for (; moment < moments_.size(); ++moment) {
            const auto [kind, lesson] = moments_[moment];
            if (kind == Moment::Kind::takes_tune) ++places;
            if (kind != Moment::Kind::closes) continue;
            std::int64_t due = 0, shut = 0;
            for (const auto& [by, first] : waiting) {
                if (by > lesson) continue;
                ++due;
                shut += first > lesson ? 1 : 0;
            }
            late += std::max(due - places, shut);
        }
        return late;
    }

    // Of the cost of promised tunes that have not come at most so much can be made good.
    std::int64_t can_be_kept(const State& state, std::size_t moment) const {
        if (!is_any_promised_) return 0;
        std::vector<std::int64_t> waiting;
        for (std::size_t at = 0; at < state.taken.size(); ++at) {
            const Shelf& shelf = shelves_.all()[at];
            for (std::size_t piece = state.taken[at]; piece < shelf.pieces.size(); ++piece)
                if (const auto promised = frame_.pieces[shelf.pieces[piece]].costs_left_behind(); promised > 0)
                    waiting.push_back(promised);
        }
        std::sort(waiting.begin(), waiting.end(), std::greater<>());
        if (static_cast<std::int64_t>(waiting.size()) > tunes_left_[moment])
            waiting.resize(static_cast<std::size_t>(tunes_left_[moment]));
        return std::accumulate(waiting.begin(), waiting.end(), std::int64_t{0});
    }

    // In which so many steps can have come at the earliest; one past the last where never.
    std::size_t first_lesson_of(std::size_t steps, const Progress& from, std::size_t moment) const {
        Progress progress = from;
        std::size_t lesson = moments_[moment].lesson;
        bool is_open = moments_[moment].kind == Moment::Kind::opens;
        while (lesson < frame_.places.size()) {
            if (is_open && progress.step() < steps && progress.may_bring(frame_, frame_.places[lesson]))
                progress.bring_step(lesson);
            if (progress.step() >= steps) return lesson;
            progress.end_lesson(frame_);
            ++lesson;
            is_open = true;
        }
        return lesson;
    }

    std::vector<Timetable::Lesson> retrace(std::size_t trail) const {
        std::vector<int> choices(moments_.size());
        for (std::size_t at = moments_.size(); at-- > 0; trail = trail_[trail].before)
            choices[at] = trail_[trail].choice;
        std::vector<Timetable::Lesson> lessons(frame_.places.size());
        std::vector<std::size_t> taken(shelves_.all().size(), 0);
        for (std::size_t at = 0; at < moments_.size(); ++at) {
            Timetable::Lesson& lesson = lessons[moments_[at].lesson];
            if (choices[at] == kBringStep) lesson.brings_step = true;
            if (choices[at] < 0) continue;
            const auto shelf = static_cast<std::size_t>(choices[at]);
            lesson.new_tunes.push_back(shelves_.all()[shelf].pieces[taken[shelf]++]);
        }
        return lessons;
    }

    const Frame& frame_;
    Shelves shelves_;
    std::vector<Moment> moments_;
    LeastAhead ahead_;
    std::vector<std::int64_t> tunes_left_;  // places for a tune from each moment on
    std::int64_t supply_ = 0;
    std::int64_t most_asked_for_ = 0;
    bool is_any_promised_ = false;

    std::vector<State> layer_, next_;
    std::unordered_map<std::string, std::size_t> places_;  // of next_, by key_of
    std::vector<Footprint> trail_;
    std::optional<Cost> dropped_;
    std::size_t states_ = 0;
    bool is_found_ = false;
};

}  // namespace

Timetable find_timetable(const Frame& frame) {
    INVARIANT(frame.notes_every >= 1 && frame.max_states >= 1);
    if (frame.places.empty()) {
        Timetable none;
        none.cost = cost_of(frame, {});
        none.bound = none.cost;
        return none;
    }
    return Search(frame).find();
}

Cost cost_of(const Frame& frame, const std::vector<Timetable::Lesson>& lessons) {
    Cost cost = cost_of_wishes(frame);
    Progress progress(frame);
    std::vector<std::optional<std::size_t>> came(frame.pieces.size());
    for (std::size_t lesson = 0; lesson < lessons.size(); ++lesson) {
        if (lessons[lesson].brings_step) cost += progress.bring_step(lesson);
        for (const std::size_t at : lessons[lesson].new_tunes) {
            const Piece& piece = frame.pieces[at];
            INVARIANT(piece.opens <= progress.step() && !came[at]);
            cost += progress.teach(lesson, piece.opens, piece.use, piece.rhythm, piece.asked_for, piece.hardness);
            cost[Criterion::left_behind] -= piece.costs_left_behind();
            came[at] = lesson;
        }
        const auto empty = frame.places[lesson].new_tunes - static_cast<int>(lessons[lesson].new_tunes.size());
        cost[Criterion::empty_places] += empty;
        cost += progress.end_lesson(frame);
    }
    cost += progress.end_term(frame);
    for (std::size_t at = 0; at < frame.pieces.size(); ++at) {
        const Piece& piece = frame.pieces[at];
        if (!piece.is_must) continue;
        const std::size_t by = piece.must_by.value_or(0), with = came[at].value_or(lessons.size());
        if (piece.must_by && (with > by || !came[at])) ++cost[Criterion::wishes_missed];
        if (with > by) cost[Criterion::wishes_late] += static_cast<std::int64_t>(with - by);
    }
    for (const std::size_t at : frame.begin) cost[Criterion::wishes_missed] += came[at] ? 0 : 1;
    return cost;
}

}  // namespace syllabus
