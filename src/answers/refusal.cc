// Tested by refusal_test.cc.
#include "answers/refusal.h"

namespace answers {

std::string_view reason_token(Reason reason) noexcept {
    switch (reason) {
        case Reason::in_words:
            return "not-understood";
        case Reason::no_note_in_common:
            return "no-note-in-common";
        case Reason::none_on_instrument:
            return "none-on-instrument";
        case Reason::unknown_instrument:
            return "unknown-instrument";
        case Reason::several_instruments:
            return "several-instruments";
        case Reason::no_note_so_easy:
            return "no-note-so-easy";
        case Reason::grade_of_which:
            return "grade-of-which";
        case Reason::unknown_player:
            return "unknown-player";
        case Reason::one_of_class:
            return "one-of-class";
        case Reason::no_players:
            return "no-players";
        case Reason::which_player:
            return "which-player";
        case Reason::strange_instrument:
            return "strange-instrument";
        case Reason::no_notes_yet:
            return "no-notes-yet";
        case Reason::lacking_which:
            return "lacking-which";
        case Reason::counts_every_tune:
            return "counts-every-tune";
        case Reason::unknown_tune:
            return "unknown-tune";
        case Reason::unknown_term:
            return "unknown-term";
        case Reason::several_tunes:
            return "several-tunes";
        case Reason::several_settings:
            return "several-settings";
        case Reason::file_gone:
            return "file-gone";
        case Reason::no_note:
            return "no-note";
        case Reason::nothing_to_learn:
            return "nothing-to-learn";
        case Reason::too_heavy:
            return "too-heavy";
        case Reason::known_already:
            return "known-already";
        case Reason::out_of_reach:
            return "out-of-reach";
        case Reason::same_setting:
            return "same-setting";
        case Reason::no_music:
            return "no-music";
        case Reason::nothing_in_it:
            return "nothing-in-it";
        case Reason::have_or_players:
            return "have-or-players";
        case Reason::whose_notes:
            return "whose-notes";
        case Reason::not_for_everyone:
            return "not-for-everyone";
        case Reason::beyond_term:
            return "beyond-term";
        case Reason::named_twice:
            return "named-twice";
        case Reason::left_out_and_wanted:
            return "left-out-and-wanted";
        case Reason::no_such_day:
            return "no-such-day";
        case Reason::two_players:
            return "two-players";
        case Reason::fewer_notes:
            return "fewer-notes";
        case Reason::fewer_names:
            return "fewer-names";
        case Reason::outside_which:
            return "outside-which";
        case Reason::best_for_which:
            return "best-for-which";
        case Reason::nothing_to_follow:
            return "nothing-to-follow";
        case Reason::lesson_given:
            return "lesson-given";
        case Reason::not_to_be_met:
            return "not-to-be-met";
    }
    return "not-understood";
}

}  // namespace answers
