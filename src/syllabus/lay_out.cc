// Tested by lay_out_test.cc.
#include "syllabus/lay_out.h"

#include <algorithm>
#include <map>

#include "base/invariant.h"
#include "syllabus/closing_sets.h"
#include "syllabus/remarks.h"
#include "syllabus/returns.h"
#include "syllabus/step_order.h"
#include "syllabus/term.h"
#include "syllabus/unmet.h"

namespace syllabus {

namespace {

class Layout {
public:
    Layout(const Course& course, std::vector<Lesson> lessons, std::size_t fixed) : course_(course), fixed_(fixed) {
        plan_.lessons = std::move(lessons);
        plan_.have = course.players.front().have;
        for (const planner::Member& player : course.players) plan_.have = plan_.have & player.have;
        for (std::size_t at = 0; at < course.tunes.size(); ++at) place_of_[course.tunes[at].tune.id] = at;
        INVARIANT(fixed <= plan_.lessons.size());
    }

    Syllabus make() {
        look_back();
        open_places();
        gather_wishes();
        order();
        put_tunes_up();
        const Timetable timetable = find_timetable(frame_);
        fill_in(timetable);
        tell_unmet();
        add(plan_.remarks, remarks_on_groups(plan_.lessons, fixed_));
        add(plan_.remarks, remarks_on_empty_places(timetable.cost[Criterion::empty_places]));
        add(plan_.remarks, remarks_on_known(course_, plan_.lessons, fixed_));
        add(plan_.remarks, remarks_on_breaks(plan_.lessons, fixed_));
        add(plan_.remarks, plan_returns(plan_.lessons, fixed_));
        plan_.closing = closing_sets(plan_.lessons);
        plan_.outcome = {timetable.cost, timetable.bound, timetable.states, steps_.size(), path_is_proven_};
        return std::move(plan_);
    }

private:
    // What the lessons that stand have taught.
    void look_back() {
        known_ = plan_.have;
        frame_.notes_every = course_.pace.notes_every;
        frame_.max_states = course_.max_states;
        for (std::size_t at = 0; at < fixed_; ++at) {
            const Lesson& lesson = plan_.lessons[at];
            if (!lesson.is_held()) continue;
            if (lesson.notes) {
                known_ = known_ | lesson.notes->notes;
                newest_ = lesson.notes->notes;
                frame_.before.since_step = 0;
                frame_.before.tunes_since = 0;
                ++steps_before_;
            }
            for (const TermTune& tune : lesson.tunes) {
                if (!(tune.needed & newest_).empty()) ++frame_.before.tunes_since;
                const std::optional<int> rhythm = number_of(tune.rhythm);
                frame_.before.run = rhythm && rhythm == frame_.before.rhythm ? frame_.before.run + 1 : rhythm ? 1 : 0;
                frame_.before.rhythm = rhythm;
                taught_[tune.id] = at;
            }
            if (frame_.before.since_step) ++*frame_.before.since_step;
        }
    }

    std::optional<int> number_of(const std::string& rhythm) {
        if (rhythm.empty()) return std::nullopt;
        return rhythms_.try_emplace(rhythm, static_cast<int>(rhythms_.size())).first->second;
    }

    void open_places() {
        std::optional<base::Date> before;
        std::size_t last_held = kNever;
        for (std::size_t at = 0; at < plan_.lessons.size(); ++at)
            if (plan_.lessons[at].is_held()) last_held = at;
        for (std::size_t at = 0; at < plan_.lessons.size(); ++at) {
            Lesson& lesson = plan_.lessons[at];
            if (at >= fixed_) lesson = {lesson.date, lesson.state, false, std::nullopt, {}, {}};
            if (!lesson.is_held()) continue;
            if (at >= fixed_) {
                lesson.only_goes_over = at == last_held || (before && lesson.date - *before > kLongestWait);
                held_.push_back(at);
                frame_.places.push_back({lesson.only_goes_over ? 0 : course_.pace.tunes_each, !lesson.only_goes_over});
            }
            before = lesson.date;
        }
    }

    std::size_t steps_by(std::size_t by) const { return syllabus::steps_by(frame_, most_steps(), by); }

    std::size_t most_steps() const {
        if (!course_.pace.steps) return plan_.lessons.size();
        const auto most = static_cast<std::size_t>(std::max(0, *course_.pace.steps));
        return most > steps_before_ ? most - steps_before_ : 0;
    }

    void gather_wishes() {
        for (std::size_t at = 0; at < course_.begin.size(); ++at) {
            const tune::TuneId id = course_.begin[at];
            if (taught_.contains(id)) continue;
            const std::size_t by = wish_places(at);
            wishes_.push_back({place_of_.at(id), by, by, {{}, {}, static_cast<std::int64_t>(at + 1)}, true});
        }
        for (const Must& must : course_.musts) {
            if (const auto found = taught_.find(must.id); found != taught_.end()) {
                tell_if_late(must, found->second);
                continue;
            }
            Wish wish{place_of_.at(must.id), kNever, kNever, until(must), false};
            for (std::size_t at = 0; at < held_.size(); ++at)
                if (is_in_time(must, held_[at]) && frame_.places[at].new_tunes > 0) wish.by = at;
            wish.aim = may_come_by(wish.tune, wish.by) ? wish.by : first_chance(wish.tune);
            wishes_.push_back(wish);
        }
    }

    std::size_t notes_lacking(std::size_t tune) const {
        return static_cast<std::size_t>(needed(tune).without(known_).size());
    }

    bool may_come_by(std::size_t tune, std::size_t by) const {
        return by != kNever && notes_lacking(tune) <= steps_by(by);
    }

    // Late is better than never.
    std::size_t first_chance(std::size_t tune) const {
        for (std::size_t at = 0; at < frame_.places.size(); ++at)
            if (frame_.places[at].new_tunes > 0 && may_come_by(tune, at)) return at;
        return kNever;
    }

    // With which lesson the new tune of that number comes when none before it is left out.
    std::size_t wish_places(std::size_t number) const {
        std::size_t before = taught_.size() > number ? 0 : number - taught_.size();
        for (std::size_t at = 0; at < frame_.places.size(); ++at) {
            const auto room = static_cast<std::size_t>(frame_.places[at].new_tunes);
            if (before < room) return at;
            before -= room;
        }
        return kNever;
    }

    static Until until(const Must& must) {
        Until until{must.by_date, {}, {}};
        if (must.by_lesson) until.lesson = *must.by_lesson;
        return until;
    }

    bool is_in_time(const Must& must, std::size_t lesson) const {
        if (must.by_date) return plan_.lessons[lesson].date <= *must.by_date;
        return !must.by_lesson || lesson < static_cast<std::size_t>(*must.by_lesson);
    }

    void tell_if_late(const Must& must, std::size_t lesson) {
        if (is_in_time(must, lesson)) return;
        plan_.unmet.emplace_back(CameLate{course_.tunes[place_of_.at(must.id)].tune.title, until(must),
                                          static_cast<std::int64_t>(lesson + 1)});
    }

    void order() {
        std::vector<StepDue> dues;
        for (const Wish& wish : wishes_) {
            const std::size_t steps = wish.aim == kNever ? 0 : steps_by(wish.aim);
            const std::size_t lacking = notes_lacking(wish.tune);
            if (lacking > 0 && lacking <= steps) dues.push_back({wish.tune, steps});
        }
        const planner::Plan path = order_steps(course_, known_, dues);
        path_is_proven_ = path.proof == planner::Proof::optimal;
        frame_.steps = frame_.places.empty() ? 0 : std::min(steps_by(frame_.places.size() - 1), path.steps.size());
        steps_ = path.steps;
        for (std::size_t at = 0; at < course_.tunes.size(); ++at) opens_.push_back(opening_step(at));
        steps_.resize(frame_.steps);
        for (const int midi : course_.first)
            if (!known_.has(midi)) wanted_notes_.add(midi);
        while (frame_.steps_wanted < steps_.size() && steps_[frame_.steps_wanted].add.is_within(wanted_notes_))
            ++frame_.steps_wanted;
        music::NoteSet in_time;
        for (std::size_t step = 0; step < frame_.steps_wanted; ++step) in_time = in_time | steps_[step].add;
        frame_.missed_anyway += std::int64_t{wanted_notes_.without(in_time).size()};
    }

    const music::NoteSet& needed(std::size_t tune) const { return course_.tunes[tune].tune.needed; }

    std::size_t opening_step(std::size_t tune) const {
        music::NoteSet notes = known_;
        for (std::size_t step = 0; step <= steps_.size(); ++step) {
            if (needed(tune).is_within(notes)) return step;
            if (step < steps_.size()) notes = notes | steps_[step].add;
        }
        return kNever;
    }

    // The tunes that may come become pieces of the frame.
    void put_tunes_up() {
        std::map<std::size_t, const Wish*> wish_of;
        for (const Wish& wish : wishes_)
            if (!wish.is_beginning) wish_of[wish.tune] = &wish;
        std::map<std::size_t, std::size_t> piece_of;
        for (std::size_t at = 0; at < course_.tunes.size(); ++at) {
            const auto wish = wish_of.find(at);
            const bool is_wish = wish != wish_of.end();
            if (!course_.tunes[at].may_come || taught_.contains(course_.tunes[at].tune.id) ||
                (opens_[at] > frame_.steps && !is_wish))
                continue;
            TermTune tune = course_.tunes[at].tune;
            if (opens_[at] <= frame_.steps) look_at_use(at, tune);
            Piece piece{opens_[at], tune.use,    number_of(tune.rhythm), course_.tunes[at].asked_for, tune.hardness,
                        is_wish,    std::nullopt};
            if (is_wish && wish->second->by != kNever) piece.must_by = wish->second->by;
            if (const auto promised = course_.promised.find(tune.id); promised != course_.promised.end())
                piece.promised = promised->second;
            piece_of[at] = frame_.pieces.size();
            frame_.pieces.push_back(piece);
            tunes_.push_back(std::move(tune));
        }
        for (const Wish& wish : wishes_) {
            if (!wish.is_beginning) continue;
            // One that cannot stand there would keep all behind it out.
            if (wish.by != kNever && opens_[wish.tune] <= steps_by(wish.by) && piece_of.contains(wish.tune))
                frame_.begin.push_back(piece_of.at(wish.tune));
            else
                ++frame_.missed_anyway;
        }
    }

    void look_at_use(std::size_t at, TermTune& tune) const {
        const music::NoteSet& newest = opens_[at] == 0 ? newest_ : steps_[opens_[at] - 1].add;
        if ((tune.needed & newest).empty()) return;
        for (const tune::NoteUse& use : course_.uses_of(at)) {
            if (!newest.has(use.midi)) continue;
            tune.times += use.count;
            tune.strong += use.strong;
        }
        tune.use = tune.times <= kSeldomTimes && tune.strong <= kSeldomStrong ? Use::seldom : Use::often;
    }

    void fill_in(const Timetable& timetable) {
        std::size_t step = 0;
        for (std::size_t at = 0; at < held_.size() && at < timetable.lessons.size(); ++at) {
            Lesson& lesson = plan_.lessons[held_[at]];
            if (timetable.lessons[at].brings_step) {
                const planner::Step& next = steps_[step++];
                lesson.notes = NewNotes{next.add, next.opens, {}};
                for (const planner::Member& player : course_.players)
                    if (!player.name.empty() && !next.add.is_within(player.have))
                        lesson.notes->learners.push_back(player.name);
            }
            for (const std::size_t piece : timetable.lessons[at].new_tunes) {
                TermTune tune = tunes_[piece];
                if (frame_.pieces[piece].opens != step) {  // an older note is no longer what it is taught for
                    tune.use = Use::none;
                    tune.times = tune.strong = 0;
                }
                lesson.tunes.push_back(std::move(tune));
            }
        }
    }

    void tell_unmet() {
        const LaidOut laid_out{course_, plan_.lessons, frame_, held_, wishes_, opens_, known_, most_steps()};
        add(plan_.unmet, unmet_wishes(laid_out));
        if (const auto notes = unmet_notes(laid_out, wanted_notes_)) plan_.unmet.push_back(*notes);
    }

    static void add(std::vector<Telling>& tellings, const std::vector<Telling>& more) {
        tellings.insert(tellings.end(), more.begin(), more.end());
    }

    const Course& course_;
    std::size_t fixed_;
    Syllabus plan_;
    Frame frame_;
    std::map<tune::TuneId, std::size_t> place_of_;  // into Course::tunes
    std::map<tune::TuneId, std::size_t> taught_;    // in the lessons that stand: with which
    std::map<std::string, int> rhythms_;
    music::NoteSet known_, newest_, wanted_notes_;
    std::size_t steps_before_ = 0;
    std::vector<std::size_t> held_;  // lessons to be planned, into Syllabus::lessons; one for each place
    std::vector<Wish> wishes_;
    std::vector<planner::Step> steps_;
    std::vector<std::size_t> opens_;  // for each of Course::tunes
    std::vector<TermTune> tunes_;     // for each piece
    bool path_is_proven_ = true;
};

}  // namespace

Syllabus lay_out(const Course& course, std::vector<Lesson> lessons, std::size_t fixed) {
    INVARIANT(!course.players.empty());
    return Layout(course, std::move(lessons), fixed).make();
}

}  // namespace syllabus
