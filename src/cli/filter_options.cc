#include "cli/filter_options.h"

#include "abc/number_fields.h"
#include "analysis/rhythm_words.h"
#include "cli/member_option.h"
#include "cli/notes_option.h"
#include "cli/terminal.h"
#include "music/meter.h"

namespace cli {

namespace {

constexpr const char* kGroup = "Which tunes";

music::NoteSet union_of(const std::vector<music::NoteSet>& sets) {
    music::NoteSet all;
    for (const music::NoteSet& set : sets) all = all | set;
    return all;
}

}  // namespace

music::NoteSet anywhere(const std::string& option, const std::string& text) {
    return union_of(read_option(option, text, music::read_notes_anywhere));
}

tune::Tag tag_of(const std::string& option, const std::string& text) {
    try {
        return tune::read_tag(text);
    } catch (const tune::TagFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

bool FilterOptions::narrows() const noexcept {
    for (const auto* text : {&uses_, &avoids_, &rhythm_, &meter_, &tonic_, &mode_, &starts_on_, &ends_on_, &octave_,
                             &title_, &file_, &tag_})
        if (text->has_value()) return true;
    return !fits_.empty() || missing_ || span_ || ornaments_ || settings_;
}

const instruments::Instrument* FilterOptions::instrument() const {
    const instruments::Instrument* whole = instrument_.instrument();
    if (!grade_) return whole;
    if (whole == nullptr) throw Misuse("--grade N needs --instrument NAME: whose grades?");
    if (*grade_ < instruments::kEasiestGrade || *grade_ > instruments::kHardestGrade)
        throw Misuse("--grade takes a number from 1 to 5, not " + std::to_string(*grade_));
    if (!graded_) graded_ = whole->up_to_grade(*grade_);
    if (graded_->notes.empty()) throw Misuse("--grade: " + whole->title + " has no note so easy");
    return &*graded_;
}

music::Compass FilterOptions::compass() const {
    const instruments::Instrument* in_hand = instrument();
    return in_hand ? in_hand->core : music::Compass();
}

std::vector<planner::Member> FilterOptions::members() const {
    std::vector<planner::Member> members;
    for (const std::string& text : fits_) members.push_back(read_member("--fits", text, instrument()));
    return members;
}

// What all that were given have in common.
music::NoteSet FilterOptions::fits_all() const {
    const std::vector<planner::Member> all = members();
    music::NoteSet common = all.front().have;
    for (const planner::Member& member : all) common = common & member.have;
    if (common.empty()) throw Misuse("--fits: these have no note in common");
    return common;
}

music::NoteSet FilterOptions::notes_of(const std::string& option, const std::string& text) const {
    return cli::notes_of(option, text, instrument());
}

void FilterOptions::add_to(CLI::App& command) {
    command
        .add_option("--fits", fits_,
                    "needs no note outside NOTES, such as \"G:major&D:major A3..B5\"; given again: nor outside those")
        ->type_name("NOTES")
        ->allow_extra_args(false)
        ->group(kGroup);
    instrument_.add_to(command, "can be played on it; note names mean its notes (gamut instrument list shows names)",
                       kGroup);
    command.add_option("--grade", grade_, "with --instrument: only its notes of this grade or easier, 1 to 5")
        ->type_name("N")
        ->group(kGroup);
    command.add_option("--missing", missing_, "lacks at most N of the notes of --fits or --instrument, and names them")
        ->type_name("N")
        ->group(kGroup);
    command.add_option("--uses", uses_, "needs each of these notes; C# means any octave")
        ->type_name("NOTES")
        ->group(kGroup);
    command.add_option("--avoids", avoids_, "needs none of these notes; C# means any octave")
        ->type_name("NOTES")
        ->group(kGroup);
    command.add_option("--rhythm", rhythm_, "reel, jig, slip jig, polka ...")->group(kGroup);
    command.add_option("--meter", meter_, "6/8, 4/4 ...")->group(kGroup);
    command.add_option("--tonic", tonic_, "the home note by the notes: A, Bb ...")->type_name("NAME")->group(kGroup);
    command.add_option("--mode", mode_, "major minor dorian phrygian lydian mixolydian locrian")->group(kGroup);
    command.add_option("--starts-on", starts_on_, "first note: D4, or D in any octave")
        ->type_name("NOTE")
        ->group(kGroup);
    command.add_option("--ends-on", ends_on_, "last note")->type_name("NOTE")->group(kGroup);
    command.add_option("--span", span_, "range of at most N semitones")->type_name("N")->group(kGroup);
    command.add_option("--octave", octave_, "home: range is exactly tonic to tonic; any: 12 semitones or fewer")
        ->type_name("home|any")
        ->group(kGroup);
    command.add_option("--title", title_, "words of a title, or how they begin")->group(kGroup);
    command.add_option("--file", file_, "part of the file's name")->group(kGroup);
    command.add_option("--tag", tag_, "has this tag; gamut mark gives them")->type_name("NAME")->group(kGroup);
    command.add_flag("--ornaments", ornaments_, "grace notes count as needed")->group(kGroup);
    command.add_flag("--settings", settings_, "each written version (setting) for itself, not one of each tune")
        ->group(kGroup);
}

void FilterOptions::narrow_to_notes(bool instrument_filters, library::Selection& selection) const {
    const instruments::Instrument* in_hand = instrument_filters ? instrument() : nullptr;
    if (missing_ && *missing_ < 0) throw Misuse("--missing takes a number from 0 up");
    if (fits_.empty() && in_hand == nullptr) {
        if (missing_) throw Misuse("--missing N needs --fits NOTES or --instrument NAME: lacking which notes?");
        return;
    }
    const music::NoteSet have = fits_.empty() ? in_hand->note_set() : fits_all();
    selection.nearest_to = have;
    if (missing_)
        selection.missing = library::Missing{have, *missing_};
    else
        selection.fits = have;
}

library::Selection FilterOptions::selection(bool instrument_filters) const {
    library::Selection selection = selection_without_notes();
    narrow_to_notes(instrument_filters, selection);
    return selection;
}

library::Selection FilterOptions::selection_without_notes() const {
    library::Selection selection;
    selection.ornaments = ornaments_;
    selection.settings = settings_;
    if (uses_) selection.uses = read_option("--uses", *uses_, music::read_notes_anywhere);
    if (avoids_) selection.avoids = anywhere("--avoids", *avoids_);
    if (rhythm_) selection.rhythm = analysis::rhythm_token(*rhythm_);
    if (meter_) {
        const auto meter = abc::read_meter(*meter_);
        if (!meter) throw Misuse("--meter: \"" + *meter_ + "\" is no meter; write 6/8, 4/4, C| or none");
        selection.meter = music::to_string(*meter);
    }
    if (tonic_) {
        const auto tonic = music::parse_note_name(*tonic_);
        if (!tonic) throw Misuse("--tonic: \"" + *tonic_ + "\" is no note name; write A, F# or Bb");
        selection.tonic = tonic->pitch_class();
    }
    if (mode_) {
        selection.mode = music::parse_mode(*mode_);
        if (!selection.mode)
            throw Misuse("--mode: \"" + *mode_ +
                         "\" is no mode; use major minor dorian phrygian lydian mixolydian locrian");
    }
    if (starts_on_) selection.starts_on = anywhere("--starts-on", *starts_on_);
    if (ends_on_) selection.ends_on = anywhere("--ends-on", *ends_on_);
    if (span_ && *span_ < 0) throw Misuse("--span takes a number from 0 up");
    selection.span = span_;
    if (octave_) {
        if (*octave_ != "home" && *octave_ != "any")
            throw Misuse("--octave takes home or any, not \"" + *octave_ + "\"");
        selection.octave = *octave_ == "home" ? library::OctaveRange::home : library::OctaveRange::any;
    }
    if (title_) selection.title = *title_;
    if (file_) selection.file = *file_;
    if (tag_) selection.tag = tag_of("--tag", *tag_).text;
    return selection;
}

void ListOptions::add_to(CLI::App& command) {
    command.add_option("--sort", sort_,
                       "title key rhythm range notes file added heard (default: title, with --goes heard)");
    command.add_option("--limit", limit_, "at most N rows")->type_name("N");
}

void ListOptions::apply_to(library::Selection& selection) const {
    if (sort_) {
        const auto sort = library::parse_sort(*sort_);
        if (!sort)
            throw Misuse("--sort: \"" + *sort_ + "\" is unknown; use title key rhythm range notes file added heard");
        selection.sort = *sort;
    }
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    selection.limit = limit_;
}

std::vector<report::Sieve> FilterOptions::sieves_of(const library::Tally& tally) const {
    const std::string_view of_notes = !fits_.empty() ? "fits" : "instrument";
    std::vector<report::Sieve> sieves;
    for (const library::LeftOut& out : tally.why)
        sieves.push_back({out.filter == "missing" || out.filter == "fits" ? of_notes : out.filter, out.fails});
    return sieves;
}

}  // namespace cli
