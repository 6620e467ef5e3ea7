#include "cli/filter_options.h"

#include <map>
#include <set>

#include "abc/number_fields.h"
#include "analysis/rhythm_words.h"
#include "cli/commands.h"
#include "cli/member_option.h"
#include "cli/notes_option.h"
#include "cli/player_named.h"
#include "cli/terminal.h"
#include "music/meter.h"

namespace cli {

namespace {

constexpr const char* kWhichTunes = "Which tunes";

music::NoteSet union_of(const std::vector<music::NoteSet>& sets) {
    music::NoteSet all;
    for (const music::NoteSet& set : sets) all = all | set;
    return all;
}

// A player named again, in any case, is no second one.
std::vector<std::string> each_once(const std::vector<std::string>& names) {
    std::vector<std::string> once;
    std::set<std::string> folded;
    for (const std::string& name : names)
        if (folded.insert(tune::fold_player_name(name)).second) once.push_back(name);
    return once;
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
                             &title_, &file_, &tag_, &state_})
        if (text->has_value()) return true;
    return !fits_.empty() || !for_.empty() || missing_ || span_ || ornaments_ || settings_;
}

const instruments::Instrument* FilterOptions::instrument() const {
    const instruments::Instrument* whole = instrument_.instrument();
    if (whole == nullptr && for_.size() == 1) whole = instrument_of(player(for_.front()).player);
    if (!grade_) return whole;
    if (whole == nullptr && for_.empty() && asker_) whole = instrument_of(player(*asker_).player);
    if (whole == nullptr && for_.size() > 1) return nullptr;  // each on an instrument of their own: see players()
    if (whole == nullptr)
        throw Misuse("--grade N needs --instrument NAME, or --for a PLAYER who has one: whose grades?");
    if (!graded_) graded_ = up_to_grade(*whole);
    return &*graded_;
}

instruments::Instrument FilterOptions::up_to_grade(const instruments::Instrument& whole) const {
    if (*grade_ < instruments::kEasiestGrade || *grade_ > instruments::kHardestGrade)
        throw Misuse("--grade takes a number from 1 to 5, not " + std::to_string(*grade_));
    instruments::Instrument easier = whole.up_to_grade(*grade_);
    if (easier.notes.empty()) throw Misuse("--grade: " + whole.title + " has no note so easy");
    return easier;
}

music::Compass FilterOptions::compass() const {
    const instruments::Instrument* in_hand = instrument();
    return in_hand ? in_hand->core : music::Compass();
}

std::vector<planner::Member> FilterOptions::members() const {
    std::vector<planner::Member> members;
    for (const std::string& text : fits_)
        members.push_back(read_member("--fits", text, instrument(), names_in(*library_)));
    for (planner::Member& member : players()) members.push_back(std::move(member));
    return members;
}

collection::PlayerRecord FilterOptions::player(const std::string& name) const {
    return player_named(library::Library::open_existing(library_file(*library_)), name);
}

std::vector<planner::Member> FilterOptions::players() const {
    std::vector<planner::Member> players;
    if (for_.empty()) return players;
    const library::Library library = library::Library::open_existing(library_file(*library_));
    for (const std::string& name : for_) {
        const collection::PlayerRecord record = player_named(library, name);
        const instruments::Instrument* instrument = instrument_of(record.player);
        music::NoteSet reach = instrument ? instrument->note_set() : music::every_note();
        if (grade_ && instrument) reach = up_to_grade(*instrument).note_set();
        players.push_back({record.player.name.text, some_notes_of(library, record), reach});
    }
    return players;
}

std::optional<music::NoteSet> FilterOptions::have_of_players() const {
    if (for_.empty()) return std::nullopt;
    music::NoteSet common = music::every_note();
    for (const planner::Member& member : players()) common = common & member.have;
    if (common.empty()) throw Misuse("--for: these players have no note in common");
    return common;
}

collection::Selection FilterOptions::selection_to_learn() const {
    if (for_.empty()) return selection();
    collection::Selection selection = selection_without_notes();
    music::NoteSet reach = music::every_note();
    for (const planner::Member& member : players()) reach = reach & member.reach;
    for (const std::string& text : fits_)
        reach = reach & read_member("--fits", text, instrument(), names_in(*library_)).have;
    if (const instruments::Instrument* in_hand = instrument()) reach = reach & in_hand->note_set();
    if (missing_) throw Misuse("with --for a path or the worth of notes counts every tune; leave out --missing");
    if (reach != music::every_note()) selection.fits = reach;
    return selection;
}

std::string FilterOptions::reach_in_words() const {
    std::string words = for_.size() > 1 ? "on every player's instrument"
                        : for_.empty()  ? ""
                                        : "on the player's instrument";
    if (instrument_.instrument() != nullptr)
        words += words.empty() ? "on the instrument" : " and on that of --instrument";
    if (words.empty()) return words;
    if (grade_) words += ", up to grade " + std::to_string(*grade_);
    if (!for_.empty() && !fits_.empty()) words += ", and among those of --fits";
    return words;
}

// Tunes in the state asked for, of any player of --for; of the only player there is where nobody is named.
collection::TuneChoice FilterOptions::in_state() const {
    const bool is_none = *state_ == "none";
    const auto state = tune::parse_state(*state_);
    if (!state && !is_none) throw Misuse("--state takes learning, known, rusty or none, not \"" + *state_ + "\"");
    const library::Library library = library::Library::open_existing(library_file(*library_));
    std::vector<collection::PlayerRecord> players;
    for (const std::string& name : for_) players.push_back(player_named(library, name));
    if (for_.empty() && asker_) players.push_back(player_named(library, *asker_));
    if (players.empty()) players = library.players();
    if (players.empty()) throw Misuse("--state: there are no players; gamut player add NAME makes one");
    if (for_.empty() && !asker_ && players.size() > 1) throw Misuse("--state needs --for PLAYER: whose tunes?");
    collection::TuneChoice choice;
    choice.is_left_out = is_none;
    for (const collection::PlayerRecord& record : players)
        for (const tune::PlayerTune& tune : record.tunes)
            if (is_none ? tune::state_of(tune).has_value() : tune::state_of(tune) == state)
                choice.tunes.push_back(tune.tune);
    return choice;
}

std::vector<tune::TuneId> FilterOptions::settled_for_players() const {
    std::map<tune::TuneId, std::size_t> begun;  // by how many
    std::set<tune::TuneId> settled;
    for (const std::string& name : for_)
        for (const tune::PlayerTune& tune : player(name).tunes) {
            if (tune.excluded) settled.insert(tune.tune);
            if (tune::state_of(tune) && ++begun[tune.tune] == for_.size()) settled.insert(tune.tune);
        }
    return {settled.begin(), settled.end()};
}

std::vector<std::pair<tune::TuneId, std::string>> FilterOptions::known_by_players() const {
    std::map<tune::TuneId, std::vector<std::string>> who;
    for (const std::string& name : for_) {
        const collection::PlayerRecord record = player(name);
        for (const tune::PlayerTune& tune : record.tunes)
            if (tune::state_of(tune)) who[tune.tune].push_back(record.player.name.text);
    }
    std::vector<std::pair<tune::TuneId, std::string>> known;
    for (const auto& [id, names] : who) {
        std::string words;
        for (std::size_t at = 0; at < names.size(); ++at)
            words += (at == 0 ? "" : at + 1 == names.size() ? " and " : ", ") + names[at];
        known.emplace_back(id,
                           words + (names.size() == 1 ? " knows it or is learning it" : " know it or are learning it"));
    }
    return known;
}

std::map<tune::TuneId, std::int64_t> FilterOptions::wishes_of_players() const {
    std::map<tune::TuneId, std::int64_t> wishes;
    for (const std::string& name : for_)
        for (const tune::PlayerTune& tune : player(name).tunes) wishes[tune.tune] += tune.wished ? 1 : 0;
    std::erase_if(wishes, [](const auto& wish) { return wish.second == 0; });
    return wishes;
}

// What all that were given have in common.
music::NoteSet FilterOptions::fits_all() const {
    const std::vector<planner::Member> all = members();
    music::NoteSet common = all.front().have;
    for (const planner::Member& member : all) common = common & member.have;
    if (common.empty()) throw Misuse(std::string(for_.empty() ? "--fits" : "--for") + ": these have no note in common");
    return common;
}

music::NoteSet FilterOptions::notes_of(const std::string& option, const std::string& text) const {
    return cli::notes_of(option, text, instrument(), names_in(*library_));
}

void FilterOptions::add_to(CLI::App& command, std::string& library) {
    library_ = &library;
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
            "fits the notes of this player (gamut player); given again: and of that one")
        ->type_name("PLAYER")
        ->allow_extra_args(false)
        ->group(kWhichTunes);
    instrument_.add_to(command, "can be played on it; note names mean its notes (gamut instrument list shows names)",
                       kWhichTunes);
    command.add_option("--grade", grade_, "with --instrument or --for: only its notes of this grade or easier, 1 to 5")
        ->type_name("N")
        ->group(kWhichTunes);
    command.add_option("--missing", missing_, "lacks at most N of the notes of --fits or --instrument, and names them")
        ->type_name("N")
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
    command.add_option("--mode", mode_, "major minor dorian phrygian lydian mixolydian locrian")->group(kWhichTunes);
    command.add_option("--starts-on", starts_on_, "first note: D4, or D in any octave")
        ->type_name("NOTE")
        ->group(kWhichTunes);
    command.add_option("--ends-on", ends_on_, "last note")->type_name("NOTE")->group(kWhichTunes);
    command.add_option("--span", span_, "range of at most N semitones")->type_name("N")->group(kWhichTunes);
    command.add_option("--octave", octave_, "home: range is exactly tonic to tonic; any: 12 semitones or fewer")
        ->type_name("home|any")
        ->group(kWhichTunes);
    command.add_option("--title", title_, "words of a title, or how they begin")->group(kWhichTunes);
    command.add_option("--file", file_, "part of the file's name")->group(kWhichTunes);
    command.add_option("--tag", tag_, "has this tag; gamut mark gives them")->type_name("NAME")->group(kWhichTunes);
    command
        .add_option("--state", state_,
                    "learning, known, rusty or none: for a player of --for, or the only one there is")
        ->group(kWhichTunes);
    command.add_flag("--ornaments", ornaments_, "grace notes count as needed")->group(kWhichTunes);
    command.add_flag("--settings", settings_, "each written version (setting) for itself, not one of each tune")
        ->group(kWhichTunes);
}

void FilterOptions::add_scraps(CLI::App& command) {
    command
        .add_flag(
            "--scraps", scraps_,
            "propose scraps too: fewer than eight bars, broken off, or titled as a part; else they are left aside")
        ->group(kWhichTunes);
}

void FilterOptions::narrow_to_notes(bool instrument_filters, collection::Selection& selection) const {
    const instruments::Instrument* in_hand = instrument_filters ? instrument() : nullptr;
    if (missing_ && *missing_ < 0) throw Misuse("--missing takes a number from 0 up");
    const bool is_by_notes = !fits_.empty() || !for_.empty();
    if (!is_by_notes && in_hand == nullptr) {
        if (missing_)
            throw Misuse("--missing N needs --fits NOTES, --for PLAYER or --instrument NAME: lacking which notes?");
        return;
    }
    const music::NoteSet have = is_by_notes ? fits_all() : in_hand->note_set();
    selection.nearest_to = have;
    if (missing_)
        selection.missing = collection::Missing{have, *missing_};
    else
        selection.fits = have;
}

collection::Selection FilterOptions::selection(bool instrument_filters) const {
    collection::Selection selection = selection_without_notes();
    narrow_to_notes(instrument_filters, selection);
    return selection;
}

collection::Selection FilterOptions::selection_without_notes() const {
    collection::Selection selection;
    selection.ornaments = ornaments_;
    selection.settings = settings_;
    selection.scraps = scraps_ || !leaves_scraps_;
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
        selection.octave = *octave_ == "home" ? collection::OctaveRange::home : collection::OctaveRange::any;
    }
    if (title_) selection.title = *title_;
    if (file_) selection.file = *file_;
    if (state_) selection.state = in_state();
    if (tag_) selection.tag = tag_of("--tag", *tag_).text;
    return selection;
}

void ListOptions::add_to(CLI::App& command) {
    command.add_option("--sort", sort_,
                       "title key rhythm range notes file added heard (default: title, with --goes heard)");
    command.add_option("--limit", limit_, "at most N rows")->type_name("N");
}

void ListOptions::apply_to(collection::Selection& selection) const {
    if (sort_) {
        const auto sort = collection::parse_sort(*sort_);
        if (!sort)
            throw Misuse("--sort: \"" + *sort_ + "\" is unknown; use title key rhythm range notes file added heard");
        selection.sort = *sort;
    }
    if (limit_ && *limit_ < 0) throw Misuse("--limit takes a number from 0 up");
    selection.limit = limit_;
}

std::vector<report::Sieve> FilterOptions::sieves_of(const collection::Tally& tally) const {
    const std::string_view of_notes = !fits_.empty() ? "fits" : !for_.empty() ? "for" : "instrument";
    std::vector<report::Sieve> sieves;
    for (const collection::LeftOut& out : tally.why) {
        if (out.filter == "scraps") continue;
        sieves.push_back({out.filter == "missing" || out.filter == "fits" ? of_notes : out.filter, out.fails});
    }
    return sieves;
}

}  // namespace cli
