// Why a question has no answer, as a value: each face words it in terms of its own.
#pragma once

#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "music/note_set.h"
#include "planner/goal_fault.h"
#include "tune/record.h"

namespace answers {

// The part of a question that is at fault.
enum class Part {
    none,
    fits,
    players,
    instrument,
    grade,
    missing,
    state,
    uses,
    avoids,
    starts_on,
    ends_on,
    top,
    bottom,
    avoid,
    have,
    fresh,
    reach,
    group,
    first,
    order,
    before,
    must,
    begin,
    without,
    towards,
    after,
    heard,
    notes,
    typed,
    more,
    less,
    settings,
    tune,
    weights,
    goal,
    effort,
    best_start,
    best_in,
    where,
    against,
    term,
    taught,
    lost,
    move,
    under_hand,
};

enum class Reason {
    in_words,             // `what` is the sentence, of the language the part is written in; of a goal `goal` says it
    no_note_in_common,    // of those whose notes were given
    none_on_instrument,   // of these notes; `what`: the instrument
    unknown_instrument,   // `what` was said; `others`: ids that are like it
    several_instruments,  // `what` is the beginning of all `others`
    no_note_so_easy,      // on the instrument `what`
    grade_of_which,       // an instrument has to be said
    unknown_player,       // `what` was said; `others`: who there is, perhaps the first of `all`
    one_of_class,         // the class `what` was said where one player is asked for; `others`: its members
    no_players,           // nobody to ask about; `what` may say who was asked for
    which_player,         // there are several
    strange_instrument,   // of the player `what`: `others` holds its id, which this program does not know
    no_notes_yet,         // of the player `what`
    lacking_which,        // notes have to be said for something to be missing
    counts_every_tune,    // so nothing can be said of what is missing
    unknown_tune,         // `what` was said; `others`: titles near it
    unknown_term,         // `what` was said; `others`: those that are kept
    several_tunes,        // `what` was said; `tunes`: those it fits
    several_settings,     // the same; `tunes`: one a setting
    file_gone,            // of the tune that was said: `what`
    no_note,              // in the tune that was said: `what`
    nothing_to_learn,     // the tunes need none of the notes `what` that is not there already
    too_heavy,            // the weights add up to more than `what`
    known_already,        // the tune `what`, by the player in `others`
    out_of_reach,         // the tune `what` needs `notes`, which the instrument in `others` has not
    same_setting,         // both words name it
    no_music,             // to show in one of the two
    nothing_in_it,        // to learn in the tune that was said, `what`: it has no note
    have_or_players,      // notes that are there were said, and players; one of them
    whose_notes,          // neither was
    not_for_everyone,     // `notes` are not on every instrument
    beyond_term,          // lesson `what`; the term has `others`
    named_twice,          // the tune `what`
    left_out_and_wanted,  // the tune `what`
    no_such_day,          // in `others`, where a tune may be meant before it: `what`
    two_players,          // there have to be two
    fewer_notes,          // `what` were asked for; the tunes need only so many as `others` says
    fewer_names,          // the same of note names
    outside_which,        // notes have to be said for something to be out of reach
    best_for_which,       // an instrument has to be said
    nothing_to_follow,    // in the tune that was said, `what`: it has no note
    lesson_given,         // lesson `what` was; `others`: how many are said to have been
    not_to_be_met,        // `goal` says what no order of notes can meet
};

// `unknown-tune`: for programs, and the same for good.
std::string_view reason_token(Reason reason) noexcept;

struct Refusal {
    Part part = Part::none;
    Reason reason = Reason::in_words;
    std::string what{};
    std::vector<std::string> others{};
    std::vector<tune::TuneRecord> tunes{};
    music::NoteSet notes{};
    std::optional<planner::Fault> goal{};
};

// Thrown in the place of an answer.
class Refused : public std::exception {
public:
    explicit Refused(Refusal refusal) : refusal_(std::move(refusal)) {}

    const Refusal& refusal() const noexcept { return refusal_; }
    const char* what() const noexcept override { return "the question has no answer"; }

private:
    Refusal refusal_;
};

}  // namespace answers
