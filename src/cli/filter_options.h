// FILTER on the command line: what was typed, and the selection it means.
#pragma once

#include <CLI/CLI.hpp>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/instrument_option.h"
#include "collection/answer.h"
#include "collection/selection.h"
#include "library/players.h"
#include "planner/together.h"
#include "report/listing.h"
#include "tune/tag.h"

namespace cli {

class FilterOptions {
public:
    // With `--library`, which must live as long as this: players are looked up in it.
    void add_to(CLI::App& command, std::string& library);

    // For a command that proposes tunes: scraps are left aside unless `--scraps`, which this adds, asks for them.
    void add_scraps(CLI::App& command);
    // For one that proposes tunes only when it is asked so: the same, without the option.
    void leave_scraps_aside() noexcept { leaves_scraps_ = true; }
    bool asks_for_scraps() const noexcept { return scraps_; }

    // Throws Misuse with one sentence for what cannot be understood. Without --fits the notes of --instrument are those
    // a tune must fit, unless the command asks another question of them.
    collection::Selection selection(bool instrument_filters = true) const;

    // For a command that asks which notes to learn: the players of --for have these, and a tune must only be playable
    // on their instruments.
    collection::Selection selection_to_learn() const;
    // What all players of --for have in common; empty where none is named.
    std::optional<music::NoteSet> have_of_players() const;

    // Tunes that need not be taught to the players of --for: all of them have begun it or know it, or one will not
    // learn it. Ascending.
    std::vector<tune::TuneId> settled_for_players() const;
    // Tunes that some players of --for have begun or know, and which of them do: "Ina knows it", "Ina and Uli know it".
    std::vector<std::pair<tune::TuneId, std::string>> known_by_players() const;
    // Tunes that players of --for wish for, and how many do.
    std::map<tune::TuneId, std::int64_t> wishes_of_players() const;

    // Where the notes of those tunes are, as in `a note that is not on the player's instrument`; empty where neither
    // players nor an instrument are given.
    std::string reach_in_words() const;

    // The same without what notes a tune may need.
    collection::Selection selection_without_notes() const;

    // One for each --fits and --for, as written, those of --fits first.
    std::vector<planner::Member> members() const;

    // NOTES of an option. With an instrument, names mean its notes within its usual compass, and a note it has not is
    // left out and told. Misuse names the option.
    music::NoteSet notes_of(const std::string& option, const std::string& text) const;

    // The player whom the command itself names, where neither --instrument nor --for is given: --grade means the grades
    // of this one's instrument, --state this one's tunes.
    void ask_for(const std::string& player) { asker_ = player; }

    // Something is given beside an instrument and its grades.
    bool narrows() const noexcept;
    bool asks_for_missing() const noexcept { return missing_.has_value(); }
    bool ornaments() const noexcept { return ornaments_; }
    // In which a note name is meant: the instrument's usual one, else that of most tunes.
    music::Compass compass() const;
    // The one in the hands, without the notes that --grade leaves out: that of --instrument, else that of the only
    // player of --for; null where none was given.
    const instruments::Instrument* instrument() const;
    // Of an answer to `selection`, scraps apart.
    std::vector<report::Sieve> sieves_of(const collection::Tally& tally) const;

private:
    collection::PlayerRecord player(const std::string& name) const;
    std::vector<planner::Member> players() const;
    instruments::Instrument up_to_grade(const instruments::Instrument& whole) const;
    music::NoteSet fits_all() const;
    void narrow_to_notes(bool instrument_filters, collection::Selection& selection) const;
    collection::TuneChoice in_state() const;

    const std::string* library_ = nullptr;
    std::vector<std::string> fits_, for_;
    std::optional<std::string> uses_, avoids_, rhythm_, meter_, tonic_, mode_, starts_on_, ends_on_, octave_, title_,
        file_, tag_, state_;
    std::optional<std::string> asker_;
    std::optional<int> missing_, span_;
    InstrumentOption instrument_;
    std::optional<int> grade_;
    mutable std::optional<instruments::Instrument> graded_;
    bool ornaments_ = false, settings_ = false, scraps_ = false, leaves_scraps_ = false;
};

// `--sort`, `--limit`: what only a listing has.
class ListOptions {
public:
    void add_to(CLI::App& command);
    void apply_to(collection::Selection& selection) const;
    bool is_given() const { return sort_.has_value() || limit_.has_value(); }
    bool is_sorted() const { return sort_.has_value(); }

private:
    std::optional<std::string> sort_;
    std::optional<std::int64_t> limit_;
};

// A tag of an option; Misuse names the option.
tune::Tag tag_of(const std::string& option, const std::string& text);

// The notes and names of an option, a name meaning every octave; Misuse names the option.
music::NoteSet anywhere(const std::string& option, const std::string& text);

}  // namespace cli
