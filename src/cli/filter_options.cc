#include "cli/filter_options.h"

#include <algorithm>
#include <set>

#include "abc/number_fields.h"
#include "analysis/rhythm_words.h"
#include "answers/notes_asked.h"
#include "base/utf8.h"
#include "cli/kept_term.h"
#include "cli/nearest_word.h"
#include "cli/shared_options.h"
#include "cli/terminal.h"
#include "music/key.h"
#include "music/meter.h"
#include "tune/player.h"

namespace cli {

namespace {

// A player named again, in any case, is no second one.
std::vector<std::string> each_once(const std::vector<std::string>& names) {
    std::vector<std::string> once;
    std::set<std::string> folded;
    for (const std::string& name : names)
        if (folded.insert(tune::fold_player_name(name)).second) once.push_back(name);
    return once;
}

// What is wrong whatever any library holds is told before one is opened.
void look_over(const answers::Filter& filter) {
    std::vector<answers::LeftOutNotes> unheard;
    for (const std::string& text : filter.fits)
        if (text.find('@') == std::string::npos)  // a player's name says nothing without a library
            answers::read_member(text, filter.instrument.get(), {}, unheard);
    if (filter.missing && filter.fits.empty() && filter.players.empty() && !filter.instrument)
        throw answers::Refused({answers::Part::missing, answers::Reason::lacking_which});
}

answers::Lacking lacking_in(const std::string& text) {
    const std::size_t dots = text.find("..");
    const auto least = whole_number(text.substr(0, std::min(dots, text.size())));
    const auto most = dots == std::string::npos ? least : whole_number(text.substr(dots + 2));
    if (!least || !most || *least < 0 || *most < *least || *most > music::kMidiNotes)
        throw Misuse("--missing takes a number from 0 up, or two such as 1..2, not \"" + text + "\"");
    return {static_cast<int>(*most), dots == std::string::npos ? 0 : static_cast<int>(*least)};
}

const std::vector<std::string> kModeWords{"major",      "minor",   "dorian", "phrygian", "lydian",
                                          "mixolydian", "locrian", "ionian", "aeolian"};

// Whole or begun, `dor`: of a word that goes on otherwise a mode was hardly meant.
bool begins_a_mode(const std::string& written) {
    const std::string word = base::fold(written);
    return std::any_of(kModeWords.begin(), kModeWords.end(),
                       [&](const std::string& mode) { return mode.starts_with(word); });
}

std::string modes_in_words() {
    std::string words;
    for (std::size_t at = 0; at < kModeWords.size() - 2; ++at) words += (at == 0 ? "" : " ") + kModeWords[at];
    return words;
}

// MIDI.
int one_note(answers::Part part, const std::string& text) {
    const music::NoteSet notes =
        answers::read_part(part, text, [](const std::string& written) { return music::read_notes(written); });
    if (notes.size() != 1)
        throw answers::Refused({part, answers::Reason::in_words, "\"" + text + "\" is not one note, such as A5"});
    return notes.lowest();
}

}  // namespace

tune::Tag tag_of(const std::string& option, const std::string& text) {
    try {
        return tune::read_tag(text);
    } catch (const tune::TagFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

void FilterOptions::add_to(CLI::App& command, std::string& library) {
    add_library(command, library);
    command
        .add_option("--fits", fits_,
                    "needs no note outside NOTES, such as \"G:major&D:major A3..B5\"; given again: nor outside those")
        ->type_name("NOTES")
        ->allow_extra_args(false)
        ->group(kWhichTunes);
    command
        .add_option_function<std::vector<std::string>>(
            "--for", [this](const std::vector<std::string>& names) { for_ = each_once(names); },
            "fits the notes of this player, or of everyone in this class (gamut player); given again: and of that one")
        ->type_name("PLAYER")
        ->allow_extra_args(false)
        ->group(kWhichTunes);
    instrument_.add_to(command, "can be played on it; note names mean its notes (gamut instrument list shows names)",
                       kWhichTunes);
    command
        .add_option("--hardness,--grade", grade_,
                    "with --instrument or --for: only its notes of this hardness or easier, 1 to 5")
        ->type_name("N")
        ->group(kWhichTunes);
    command
        .add_option("--missing", missing_,
                    "lacks at most N of the notes of --fits or --instrument, and names them; 1..1: just one")
        ->type_name("N|N..N")
        ->group(kWhichTunes);
    command.add_option("--uses", uses_, "needs each of these notes; C# means any octave")
        ->type_name("NOTES")
        ->group(kWhichTunes);
    command.add_option("--avoids", avoids_, "needs none of these notes; C# means any octave")
        ->type_name("NOTES")
        ->group(kWhichTunes);
    command.add_option("--rhythm", rhythm_, "reel, jig, slip jig, polka ...")->group(kWhichTunes);
    command.add_option("--meter", meter_, "6/8, 4/4 ...")->group(kWhichTunes);
    command.add_option("--tonic", tonic_, "the home note by the notes: A, Bb ...")
        ->type_name("NAME")
        ->group(kWhichTunes);
    command.add_option("--mode", mode_, modes_in_words())->group(kWhichTunes);
    command.add_option("--starts-on", starts_on_, "first note: D4, or D in any octave")
        ->type_name("NOTE")
        ->group(kWhichTunes);
    command.add_option("--ends-on", ends_on_, "last note")->type_name("NOTE")->group(kWhichTunes);
    command.add_option("--span", span_, "range of at most N semitones")->type_name("N")->group(kWhichTunes);
    command.add_option("--top", top_, "no note is higher: A5")->type_name("NOTE")->group(kWhichTunes);
    command.add_option("--bottom", bottom_, "no note is lower: D4")->type_name("NOTE")->group(kWhichTunes);
    command.add_option("--octave", octave_, "home: range is exactly tonic to tonic; any: 12 semitones or fewer")
        ->type_name("home|any")
        ->group(kWhichTunes);
    command.add_option("--title", title_, "words of a title, or how they begin")->group(kWhichTunes);
    command.add_option("--file", file_, "part of the file's name")->group(kWhichTunes);
    command.add_option("--tag", tag_, "has this tag; gamut mark gives them")->type_name("NAME")->group(kWhichTunes);
    command
        .add_option("--state", state_,
                    "learning, known, rusty or none: for the player of --for, of several for all of them, or the only "
                    "one there is")
        ->group(kWhichTunes);
    command.add_flag("--ornaments", ornaments_, "grace notes count as needed")->group(kWhichTunes);
    command.add_flag("--versions,--settings", settings_, "each written version for itself, not one of each tune")
        ->group(kWhichTunes);
}

void FilterOptions::add_scraps(CLI::App& command) {
    command
        .add_flag(
            "--scraps", scraps_,
            "propose scraps too: fewer than eight bars, broken off, or titled as a part; else they are left aside")
        ->group(kWhichTunes);
}

answers::Filter FilterOptions::filter() const {
    using answers::Part;
    answers::Filter filter;
    filter.fits = fits_;
    filter.players = for_;
    filter.instrument = instrument_.shared();
    filter.instrument_file = instrument_.file();
    if (grade_ && (*grade_ < instruments::kEasiestGrade || *grade_ > instruments::kHardestGrade))
        throw Misuse("--hardness takes a number from 1 to 5, not " + std::to_string(*grade_));
    filter.grade = grade_;
    if (missing_) filter.missing = lacking_in(*missing_);
    look_over(filter);
    if (state_) filter.state = answers::parse_state_asked(*state_);
    if (state_ && !filter.state) throw Misuse("--state takes learning, known, rusty or none, not \"" + *state_ + "\"");
    filter.scraps = scraps_          ? answers::Scraps::asked_for
                    : leaves_scraps_ ? answers::Scraps::left_aside
                                     : answers::Scraps::as_any_tune;
    collection::Selection& columns = filter.columns;
    columns.ornaments = ornaments_;
    columns.settings = settings_;
    if (uses_) columns.uses = answers::read_part(Part::uses, *uses_, music::read_notes_anywhere);
    if (avoids_) columns.avoids = answers::anywhere(Part::avoids, *avoids_);
    if (rhythm_) columns.rhythm = analysis::rhythm_token(*rhythm_);
    if (meter_) {
        const auto meter = abc::read_meter(*meter_);
        if (!meter) throw Misuse("--meter: \"" + *meter_ + "\" is no meter; write 6/8, 4/4, C| or none");
        columns.meter = music::to_string(*meter);
    }
    if (tonic_) {
        const auto tonic = music::parse_note_name(*tonic_);
        if (!tonic) throw Misuse("--tonic: \"" + *tonic_ + "\" is no note name; write A, F# or Bb");
        columns.tonic = tonic->pitch_class();
    }
    if (mode_) {
        columns.mode = music::parse_mode(*mode_);
        if (!columns.mode || !begins_a_mode(*mode_))
            throw Misuse("--mode: \"" + *mode_ + "\" is no mode" + hint(nearest_word(kModeWords, base::fold(*mode_))) +
                         "; use " + modes_in_words());
    }
    if (starts_on_) columns.starts_on = answers::anywhere(Part::starts_on, *starts_on_);
    if (ends_on_) columns.ends_on = answers::anywhere(Part::ends_on, *ends_on_);
    if (span_ && *span_ < 0) throw Misuse("--span takes a number from 0 up");
    columns.span = span_;
    if (top_) columns.top = one_note(Part::top, *top_);
    if (bottom_) columns.bottom = one_note(Part::bottom, *bottom_);
    if (octave_) {
        if (*octave_ != "home" && *octave_ != "any")
            throw Misuse("--octave takes home or any, not \"" + *octave_ + "\"");
        columns.octave = *octave_ == "home" ? collection::OctaveRange::home : collection::OctaveRange::any;
    }
    columns.title = title_;
    columns.file = file_;
    if (tag_) columns.tag = tag_of("--tag", *tag_).text;
    return filter;
}

void ListOptions::add_to(CLI::App& command) {
    command.add_option("--sort", sort_,
                       "title key rhythm range notes missing file added heard (default: title, with --goes heard)");
    command.add_option("--limit", limit_, "at most N rows")->type_name("N");
}

void ListOptions::apply_to(collection::Selection& selection) const {
    if (sort_) {
        const auto sort = collection::parse_sort(*sort_);
        if (!sort)
            throw Misuse("--sort: \"" + *sort_ +
                         "\" is unknown; use title key rhythm range notes missing file added heard");
        selection.sort = *sort;
    }
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    selection.limit = limit_;
}

}  // namespace cli
