#include "cli/refusal_words.h"

#include <algorithm>

#include "answers/player_named.h"
#include "base/utf8.h"
#include "cli/shell_word.h"
#include "cli/terminal.h"
#include "music/pitch.h"
#include "report/document.h"
#include "report/pages/listing.h"
#include "report/words/goal_words.h"
#include "report/words/words.h"

namespace cli {

namespace {

using answers::Part;
using answers::Reason;
using answers::Refusal;

constexpr std::size_t kMostNames = 12;  // Source: house choice; two lines

std::string option_of(Part part) {
    switch (part) {
        case Part::fits:
            return "--fits";
        case Part::players:
            return "--for";
        case Part::instrument:
            return "--instrument";
        case Part::grade:
            return "--hardness";
        case Part::missing:
            return "--missing";
        case Part::state:
            return "--state";
        case Part::uses:
            return "--uses";
        case Part::avoids:
            return "--avoids";
        case Part::starts_on:
            return "--starts-on";
        case Part::ends_on:
            return "--ends-on";
        case Part::top:
            return "--top";
        case Part::bottom:
            return "--bottom";
        case Part::avoid:
            return "--avoid";
        case Part::have:
            return "--have";
        case Part::fresh:
            return "--new";
        case Part::reach:
            return "--reach";
        case Part::group:
            return "--group";
        case Part::first:
            return "--first";
        case Part::order:
            return "--order";
        case Part::before:
            return "--before";
        case Part::must:
            return "--must";
        case Part::begin:
            return "--begin";
        case Part::without:
            return "--without";
        case Part::towards:
            return "--towards";
        case Part::after:
            return "--after";
        case Part::heard:
            return "--goes";
        case Part::notes:
            return "--notes";
        case Part::typed:
            return "NOTES";
        case Part::more:
            return "--add";
        case Part::less:
            return "--drop";
        case Part::settings:
            return "--versions";
        case Part::weights:
            return "--tag-weight";
        case Part::best_start:
            return "--best-start";
        case Part::best_in:
            return "--best-in";
        case Part::against:
            return "--beside";
        case Part::move:
            return "--move";
        case Part::under_hand:
            return "--on";
        case Part::where:
            return "--where";
        case Part::effort:
            return "--effort";
        case Part::taught:
            return "--taught";
        case Part::lost:
            return "--lost";
        case Part::none:
        case Part::tune:
        case Part::goal:
        case Part::term:
            break;
    }
    return {};
}

std::string joined(const std::vector<std::string>& words, const char* between = ", ") {
    std::string list;
    for (const std::string& word : words) list += (list.empty() ? "" : between) + base::printable(word);
    return list;
}

std::string quoted(const std::string& text) { return "\"" + base::printable(text) + "\""; }

std::string first_names(std::vector<std::string> names) {
    const bool are_more = names.size() > kMostNames;
    if (are_more) names.resize(kMostNames);
    return joined(names) + (are_more ? " ..." : "");
}

std::string whose_instrument(const Refusal& refusal) {
    return "the instrument of " + refusal.what + ", \"" + joined(refusal.others) +
           "\", is none that gamut knows; gamut player change " + shell_word(refusal.what) +
           " --instrument NAME says another";
}

std::string no_notes(const std::string& name) {
    return name + " has no notes yet; say them with gamut player notes " + shell_word(name) +
           " NOTES, or name tunes that " + name + " knows with gamut player tune " + shell_word(name) + " known TITLES";
}

std::string unknown_tune(const Refusal& refusal) {
    return "no tune has the id or title " + quoted(refusal.what) +
           (refusal.others.empty() ? "; gamut tunes --title WORD looks for a word"
                                   : "; near it: " + joined(refusal.others));
}

std::string was_given(const Refusal& refusal) {
    const std::string given = "lesson " + refusal.what + " was given; --yes says that it was not";
    if (refusal.part == Part::lost) return given + " held after all, and what it held moves on";
    return given + (refusal.others.front() == "0" ? "" : ", nor any after lesson " + refusal.others.front());
}

// Without the option at fault.
std::string why(const Refusal& refusal) {
    switch (refusal.reason) {
        case Reason::in_words:
        case Reason::not_to_be_met:
            return refusal.goal ? report::in_words(*refusal.goal) : refusal.what;
        case Reason::no_note_in_common:
            return std::string(refusal.part == Part::players ? "these players" : "these") + " have no note in common";
        case Reason::none_on_instrument:
            return "none of these is a note of " + refusal.what;
        case Reason::unknown_instrument:
            return "there is no instrument " + quoted(refusal.what) +
                   (refusal.others.empty() ? "" : "; like it: " + joined(refusal.others)) +
                   "; gamut instrument list shows them all";
        case Reason::several_instruments:
            return quoted(refusal.what) +
                   " is the beginning of several instruments; say which: " + joined(refusal.others);
        case Reason::no_note_so_easy:
            return refusal.what + " has no note so easy";
        case Reason::grade_of_which:
            return (refusal.part == Part::effort ? "--effort instrument" : "--hardness N") +
                   std::string(" needs --instrument NAME, or --for a PLAYER who has one: hard on which?");
        case Reason::unknown_player:
            return "there is no player " + quoted(refusal.what) + "; there are: " + first_names(refusal.others);
        case Reason::one_of_class:
            return quoted(refusal.what) + " is a class; say which player of it: " + first_names(refusal.others);
        case Reason::no_players:
            return refusal.what.empty() ? "there are no players; gamut player add NAME makes one"
                                        : "there is no player " + quoted(refusal.what) +
                                              ", nor any other; gamut player add NAME makes one";
        case Reason::which_player:
            return "--state needs --for PLAYER: whose tunes?";
        case Reason::strange_instrument:
            return whose_instrument(refusal);
        case Reason::no_notes_yet:
            return no_notes(refusal.what);
        case Reason::lacking_which:
            return "--missing N needs --fits NOTES, --for PLAYER or --instrument NAME: lacking which notes?";
        case Reason::counts_every_tune:
            return "with --for a path or the worth of notes counts every tune; leave out --missing";
        case Reason::unknown_tune:
            return unknown_tune(refusal);
        case Reason::unknown_term:
            return "no term is called " + quoted(refusal.what) + "; gamut syllabus lists those that are kept";
        case Reason::several_tunes:
            return quoted(refusal.what) + " fits several tunes; choose one by its id (gamut mark ID --alias " +
                   shell_word(refusal.what) + " settles it)";
        case Reason::several_settings:
            return quoted(refusal.what) + " fits several; choose one by its id";
        case Reason::file_gone:
            return quoted(refusal.what) + ": the file of that tune is gone";
        case Reason::no_note:
            return quoted(refusal.what) + ": no note sounds in that tune";
        case Reason::nothing_to_learn:
            return quoted(refusal.what) + ": the tunes need none of these notes that is not there already";
        case Reason::too_heavy:
            return "the weights add up to more than " + refusal.what + "; make them smaller";
        case Reason::have_or_players:
            return "say which notes are there with --have, or for players with --fits and --for; leave out one";
        case Reason::whose_notes:
            return "a term needs --have NOTES, or --for PLAYER or --fits once for each player: which notes are there?";
        case Reason::not_for_everyone:
            return report::note_list(refusal.notes) + ": not on everyone's instrument";
        case Reason::beyond_term:
            return "the term has " + refusal.others.front() + " lessons, not " + refusal.what;
        case Reason::named_twice:
            return option_of(refusal.part) + " names " + quoted(refusal.what) + " twice; once is enough";
        case Reason::left_out_and_wanted:
            return option_of(refusal.part) + " and --without both name " + quoted(refusal.what) + "; which of them?";
        case Reason::no_such_day:
            return quoted(refusal.what) + ": " + quoted(refusal.others.front()) +
                   " is no day and no lesson; write 2027-02-02, or 3 for lesson 3";
        case Reason::two_players:
            return "gamut together needs two players; give --for PLAYER or --fits NOTES for each";
        case Reason::fewer_notes:
        case Reason::fewer_names:
            return refusal.what + ": these tunes need only " + joined(refusal.others) +
                   (refusal.reason == Reason::fewer_names ? " note names" : " notes");
        case Reason::lesson_given:
            return was_given(refusal);
        case Reason::outside_which:
            return "--kind out-of-reach needs --reach NOTES or --instrument NAME: outside which notes?";
        case Reason::best_for_which:
            return "--move best needs --instrument NAME, or --for a PLAYER who has one: best for which?";
        case Reason::nothing_to_follow:
            return quoted(refusal.what) + " has no note, so nothing can follow its last one";
        case Reason::known_already:
            return joined(refusal.others) + " knows " + quoted(refusal.what) + " already";
        case Reason::out_of_reach:
            return quoted(refusal.what) + " needs " + report::note_list(refusal.notes) + ", which " +
                   joined(refusal.others) + " has not; no ladder leads there";
        case Reason::same_setting:
            return "both words name the same version; name two different ones";
        case Reason::no_music:
            return "one of the two has no music to show";
        case Reason::nothing_in_it:
            return quoted(refusal.what) + " has no note, so there is nothing to learn";
    }
    return refusal.what;
}

// The words that were typed stand between the option and what is wrong with them.
bool begins_with_what_was_typed(const Refusal& refusal) {
    return refusal.reason == Reason::file_gone || refusal.reason == Reason::no_such_day ||
           refusal.reason == Reason::no_note || refusal.reason == Reason::nothing_to_learn ||
           refusal.reason == Reason::fewer_notes || refusal.reason == Reason::fewer_names;
}

// The whole sentence names the option already, or there is none to name.
bool stands_alone(const Refusal& refusal) {
    switch (refusal.reason) {
        case Reason::grade_of_which:
        case Reason::which_player:
        case Reason::lacking_which:
        case Reason::counts_every_tune:
        case Reason::unknown_instrument:
        case Reason::several_instruments:
        case Reason::unknown_tune:
        case Reason::several_tunes:
        case Reason::several_settings:
        case Reason::too_heavy:
        case Reason::out_of_reach:
        case Reason::two_players:
        case Reason::have_or_players:
        case Reason::whose_notes:
        case Reason::named_twice:
        case Reason::left_out_and_wanted:
        case Reason::outside_which:
        case Reason::best_for_which:
        case Reason::lesson_given:
            return true;
        default:
            return option_of(refusal.part).empty();
    }
}

report::Document by_setting(const std::vector<tune::TuneRecord>& settings) {
    report::Table table{{{"id"}, {"title", report::Fit::cut}, {"file", report::Fit::cut}, {"line"}}, {}};
    for (const tune::TuneRecord& record : settings)
        table.rows.push_back({report::Cell(record.own.value), report::Cell(record.titles.front()),
                              report::Cell(record.file), report::Cell(std::int64_t{record.line})});
    report::Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

report::Document by_tune(const std::vector<tune::TuneRecord>& tunes) {
    answers::TunesAnswer listing;
    listing.rows = tunes;
    listing.matched = static_cast<std::int64_t>(tunes.size());
    return report::describe(listing);
}

}  // namespace

std::string in_words(const Refusal& refusal) {
    if (stands_alone(refusal)) return why(refusal);
    return option_of(refusal.part) + (begins_with_what_was_typed(refusal) ? " " : ": ") + why(refusal);
}

report::Fault fault_of(const Refusal& refusal) {
    const bool has_been_understood = refusal.reason == Reason::unknown_tune || refusal.reason == Reason::unknown_term ||
                                     refusal.reason == Reason::out_of_reach ||
                                     refusal.reason == Reason::not_to_be_met || refusal.reason == Reason::no_music;
    return {std::string(answers::reason_token(refusal.reason)), option_of(refusal.part), in_words(refusal),
            has_been_understood ? kDoneInPart : kMisused,       refusal.others,          refusal.tunes};
}

void tell_candidates(const Refusal& refusal) {
    if (!refusal.tunes.empty())
        write_fault(report::render_text(
            refusal.reason == Reason::several_settings ? by_setting(refusal.tunes) : by_tune(refusal.tunes),
            page_of_terminal()));
}

int tell(const Refusal& refusal) {
    tell_candidates(refusal);
    const report::Fault fault = fault_of(refusal);
    write_fault("gamut: " + base::printable(fault.message) + "\n");
    return fault.exit_code;
}

void tell_left_out(const std::vector<answers::LeftOutNotes>& left_out) {
    for (const answers::LeftOutNotes& one : left_out) {
        std::string names;
        for (const int midi : one.notes.midi_numbers())
            names += (names.empty() ? "" : ", ") + music::to_string(music::spell_midi(midi));
        write_notice("gamut: " + option_of(one.part) + ": " + one.instrument + " has no " + names + "; left out\n");
    }
}

void tell_classes(const collection::Collection& collection, const std::vector<std::string>& names) {
    for (const collection::PlayerClass& one : answers::players_meant(collection, names).classes)
        write_notice("gamut: " + one.name.text + ": " + joined(one.players) + "\n");
}

}  // namespace cli
