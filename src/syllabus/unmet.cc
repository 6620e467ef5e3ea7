// Tested by lay_out_test.cc.
#include "syllabus/unmet.h"

#include <algorithm>

namespace syllabus {

namespace {

std::int64_t lesson_of(const LaidOut& laid_out, std::size_t held) {
    return static_cast<std::int64_t>(laid_out.held[held] + 1);
}

TimeForNotes time_for_notes(const LaidOut& laid_out, std::size_t possible) {
    const Pace& pace = laid_out.course.pace;
    return {static_cast<std::int64_t>(possible), laid_out.frame.notes_every,
            pace.steps ? std::optional<std::int64_t>(*pace.steps) : std::nullopt};
}

// With which of `held` it comes.
std::optional<std::size_t> comes_with(const LaidOut& laid_out, tune::TuneId id) {
    for (std::size_t at = 0; at < laid_out.held.size(); ++at) {
        const std::vector<TermTune>& tunes = laid_out.lessons[laid_out.held[at]].tunes;
        if (std::any_of(tunes.begin(), tunes.end(), [&](const TermTune& tune) { return tune.id == id; })) return at;
    }
    return std::nullopt;
}

// The term begins with its tunes in the order that was asked for.
bool stands_at_its_place(const LaidOut& laid_out, tune::TuneId id) {
    const std::vector<tune::TuneId>& begin = laid_out.course.begin;
    auto before = std::find(begin.begin(), begin.end(), id) - begin.begin();
    for (const Lesson& lesson : laid_out.lessons)
        for (const TermTune& tune : lesson.tunes)
            if (lesson.is_held() && before-- == 0) return tune.id == id;
    return false;
}

Hindrance why_not(const LaidOut& laid_out, const Wish& wish) {
    if (wish.by == kNever) return NoLessonInTime{};
    const Frame& frame = laid_out.frame;
    const music::NoteSet lacking = laid_out.course.tunes[wish.tune].tune.needed.without(laid_out.known);
    music::NoteSet reach = laid_out.course.players.front().reach;
    for (const planner::Member& player : laid_out.course.players) reach = reach & player.reach;
    if (const music::NoteSet out = lacking.without(reach); !out.empty()) return NotOnEveryInstrument{out};
    const std::size_t possible = steps_by(frame, laid_out.most_steps, wish.by);
    const auto no_time = [&](bool others_need_some) {
        return NoTimeForNotes{lacking, time_for_notes(laid_out, possible), lesson_of(laid_out, wish.by),
                              others_need_some};
    };
    if (static_cast<std::size_t>(lacking.size()) > possible) return no_time(false);
    const auto rivals = std::count_if(laid_out.wishes.begin(), laid_out.wishes.end(),
                                      [&](const Wish& other) { return other.by != kNever && other.by <= wish.by; });
    std::int64_t room = 0;
    for (std::size_t at = 0; at <= wish.by; ++at) room += frame.places[at].new_tunes;
    if (rivals > room) return NoRoom{rivals, lesson_of(laid_out, wish.by), room, wish.by + 1 >= frame.places.size()};
    const std::size_t opens = laid_out.opens[wish.tune];
    if (!lacking.empty() && (opens == kNever || opens > possible)) return no_time(true);
    return NoPlaceLeft{};
}

}  // namespace

std::size_t steps_by(const Frame& frame, std::size_t most_steps, std::size_t by) {
    std::size_t steps = 0;
    int since = frame.before.since_step.value_or(frame.notes_every);
    for (std::size_t at = 0; at <= by && at < frame.places.size(); ++at, ++since)
        if (frame.places[at].may_bring_notes && since >= frame.notes_every) {
            ++steps;
            since = 0;
        }
    return std::min(steps, most_steps);
}

std::vector<Telling> unmet_wishes(const LaidOut& laid_out) {
    std::vector<Telling> unmet;
    for (const Wish& wish : laid_out.wishes) {
        const TermTune& tune = laid_out.course.tunes[wish.tune].tune;
        const std::optional<std::size_t> comes = comes_with(laid_out, tune.id);
        const bool is_met = wish.is_beginning ? stands_at_its_place(laid_out, tune.id)
                                              : comes && wish.by != kNever && *comes <= wish.by;
        if (is_met) continue;
        unmet.emplace_back(CannotCome{tune.title, wish.until, why_not(laid_out, wish),
                                      comes ? std::optional(lesson_of(laid_out, *comes)) : std::nullopt});
    }
    return unmet;
}

std::optional<Telling> unmet_notes(const LaidOut& laid_out, const music::NoteSet& wanted) {
    music::NoteSet there = laid_out.known;
    for (const Lesson& lesson : laid_out.lessons)
        if (lesson.notes && lesson.is_held()) there = there | lesson.notes->notes;
    const music::NoteSet lacking = wanted.without(there);
    if (lacking.empty()) return std::nullopt;
    const std::size_t places = laid_out.frame.places.size();
    const std::size_t possible = places == 0 ? 0 : steps_by(laid_out.frame, laid_out.most_steps, places - 1);
    NotesCannotCome unmet{lacking};
    if (static_cast<std::size_t>(wanted.size()) > possible) unmet.time = time_for_notes(laid_out, possible);
    return unmet;
}

}  // namespace syllabus
