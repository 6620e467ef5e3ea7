// Tested by lay_out_test.cc.
#include "syllabus/lay_out.h"

#include <algorithm>
#include <map>

#include "base/invariant.h"
#include "music/pitch.h"
#include "syllabus/closing_sets.h"
#include "syllabus/remarks.h"
#include "syllabus/returns.h"
#include "syllabus/step_order.h"
#include "syllabus/term.h"

namespace syllabus {

namespace {

constexpr std::size_t kNever = static_cast<std::size_t>(-1);

std::string note_names(const music::NoteSet& notes) {
    std::string names;
    for (const int midi : notes.midi_numbers())
        names += (names.empty() ? "" : " ") + music::to_string(music::spell_midi(midi));
    return names;
}

// What a must is once the lessons are known.
struct Wish {
    std::size_t tune = 0;  // into Course::tunes
    std::size_t by = 0;    // into the lessons still to be held; kNever where none comes in time
    std::size_t aim = 0;   // for which its notes are asked: `by`, or the first in which it can come where that is later
    std::string until;     // in words
    bool is_beginning = false;  // of the term
};

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
        tell_unmet(timetable);
        tell_notes_unmet();
        add_remarks(remarks_on_known(course_, plan_.lessons, fixed_));
        add_remarks(remarks_on_breaks(plan_.lessons, fixed_));
        add_remarks(plan_returns(plan_.lessons, fixed_));
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

    // Steps that can have come with lesson `by` of those still to be held, counted from now.
    std::size_t steps_by(std::size_t by) const {
        std::size_t steps = 0;
        int since = frame_.before.since_step.value_or(frame_.notes_every);
        for (std::size_t at = 0; at <= by && at < frame_.places.size(); ++at, ++since)
            if (frame_.places[at].may_bring_notes && since >= frame_.notes_every) {
                ++steps;
                since = 0;
            }
        return std::min(steps, most_steps());
    }

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
            wishes_.push_back({place_of_.at(id), by, by, "as new tune " + std::to_string(at + 1), true});
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

    static std::string until(const Must& must) {
        if (must.by_date) return "by " + base::in_words(*must.by_date);
        if (must.by_lesson) return "by lesson " + std::to_string(*must.by_lesson);
        return "in this term";
    }

    bool is_in_time(const Must& must, std::size_t lesson) const {
        if (must.by_date) return plan_.lessons[lesson].date <= *must.by_date;
        return !must.by_lesson || lesson < static_cast<std::size_t>(*must.by_lesson);
    }

    void tell_if_late(const Must& must, std::size_t lesson) {
        if (is_in_time(must, lesson)) return;
        plan_.unmet.push_back("\"" + course_.tunes[place_of_.at(must.id)].tune.title + "\" was to come " + until(must) +
                              " and came in lesson " + std::to_string(lesson + 1) + ".");
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
                came_[tune.id] = at;
                lesson.tunes.push_back(std::move(tune));
            }
        }
    }

    void tell_unmet(const Timetable& timetable) {
        std::vector<tune::TuneId> first;
        for (const Lesson& lesson : plan_.lessons)
            for (const TermTune& tune : lesson.tunes)
                if (lesson.is_held()) first.push_back(tune.id);
        for (const Wish& wish : wishes_) {
            const TermTune& tune = course_.tunes[wish.tune].tune;
            const auto came = came_.find(tune.id);
            if (wish.is_beginning) {
                const auto place = static_cast<std::size_t>(
                    std::find(course_.begin.begin(), course_.begin.end(), tune.id) - course_.begin.begin());
                if (place < first.size() && first[place] == tune.id) continue;
            } else if (came != came_.end() && wish.by != kNever && came->second <= wish.by) {
                continue;
            }
            std::string sentence = "\"" + tune.title + "\" cannot come " + wish.until + ": " + why_not(wish) + ".";
            if (came != came_.end()) sentence += " It comes in lesson " + std::to_string(held_[came->second] + 1) + ".";
            plan_.unmet.push_back(std::move(sentence));
        }
        add_remarks(remarks_on_groups(plan_.lessons, fixed_));
        add_remarks(remarks_on_empty_places(timetable.cost[Criterion::empty_places]));
    }

    void add_remarks(std::vector<std::string> remarks) {
        for (std::string& remark : remarks) plan_.remarks.push_back(std::move(remark));
    }

    // Of the notes to begin with.
    void tell_notes_unmet() {
        music::NoteSet there = known_;
        for (const Lesson& lesson : plan_.lessons)
            if (lesson.notes && lesson.is_held()) there = there | lesson.notes->notes;
        const music::NoteSet lacking = wanted_notes_.without(there);
        if (lacking.empty()) return;
        const std::size_t possible = frame_.places.empty() ? 0 : steps_by(frame_.places.size() - 1);
        plan_.unmet.push_back(note_names(lacking) + ", which the term was to begin with, cannot come: " +
                              (static_cast<std::size_t>(wanted_notes_.size()) > possible
                                   ? "there is time for " + std::to_string(possible) + " (" + pace_in_words() + ")."
                                   : "the tunes that must come leave no place for it."));
    }

    // `at most one in 2 lessons, 3 in all`
    std::string pace_in_words() const {
        return "at most one in " + std::to_string(frame_.notes_every) +
               (frame_.notes_every == 1 ? " lesson" : " lessons") +
               (course_.pace.steps ? ", " + std::to_string(*course_.pace.steps) + " in all" : "");
    }

    std::string why_not(const Wish& wish) const {
        if (wish.by == kNever) return "no lesson in which something new may come is held in that time";
        const music::NoteSet lacking = needed(wish.tune).without(known_);
        music::NoteSet reach = course_.players.front().reach;
        for (const planner::Member& player : course_.players) reach = reach & player.reach;
        if (const music::NoteSet out = lacking.without(reach); !out.empty())
            return "it needs " + note_names(out) + ", which is not on everyone's instrument";
        const std::size_t possible = steps_by(wish.by);
        const auto steps_text = [](std::size_t steps) {
            return steps == 0   ? std::string("no new note can")
                   : steps == 1 ? std::string("only one new note can")
                                : "only " + std::to_string(steps) + " new notes can";
        };
        const std::string so_far =
            steps_text(possible) + " come by lesson " + std::to_string(held_[wish.by] + 1) + " (" + pace_in_words() +
            (lacking.size() > 1 ? "; more at once only where no single note opens a tune" : "") + ")";
        if (static_cast<std::size_t>(lacking.size()) > possible)
            return "it needs " + note_names(lacking) + ", and " + so_far;
        std::size_t rivals = 0;
        for (const Wish& other : wishes_) rivals += other.by != kNever && other.by <= wish.by ? 1 : 0;
        std::size_t room = 0;
        for (std::size_t at = 0; at <= wish.by; ++at) room += static_cast<std::size_t>(frame_.places[at].new_tunes);
        if (rivals > room)
            return std::to_string(rivals) + " tunes must have come by lesson " + std::to_string(held_[wish.by] + 1) +
                   ", with which a new tune can come at the latest, and there is room for " + std::to_string(room) +
                   (wish.by + 1 < frame_.places.size() ? " (--tunes-each makes more)"
                                                       : " (--tunes-each or --lessons makes more)");
        if (!lacking.empty() && (opens_[wish.tune] == kNever || opens_[wish.tune] > possible))
            return "it needs " + note_names(lacking) + ", and with the notes other tunes must have, " + so_far;
        return "the other tunes that must come leave no place for it";
    }

    const Course& course_;
    std::size_t fixed_;
    Syllabus plan_;
    Frame frame_;
    std::map<tune::TuneId, std::size_t> place_of_;  // into Course::tunes
    std::map<tune::TuneId, std::size_t> taught_;    // in the lessons that stand: with which
    std::map<tune::TuneId, std::size_t> came_;      // in those planned: with which of held_
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
