// A filter as it stands in one collection: whose notes, on which instrument, and the selection it comes to.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/reach.h"
#include "answers/refusal.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "planner/together.h"

namespace answers {

// Players are looked up once. Every question throws Refused for what has no answer.
class TunesAsked {
public:
    // The collection and the filter must outlive it.
    TunesAsked(const collection::Collection& collection, const Filter& filter);

    // Which tunes. Without notes and players those of the instrument are what a tune must fit, unless the question has
    // another use for the instrument.
    collection::Selection selection(bool instrument_filters = true) const;

    // For a question which notes to learn: the players have some, and a tune must only be playable on their
    // instruments.
    collection::Selection selection_to_learn() const;

    // The same without what notes a tune may need.
    collection::Selection selection_without_notes() const;

    // What all players have in common; nothing where none is named.
    std::optional<music::NoteSet> have_of_players() const;

    // One for each of `fits` and each player, those of `fits` first.
    std::vector<planner::Member> members() const;
    const std::vector<collection::PlayerRecord>& players() const noexcept { return players_; }

    // Tunes that need not be taught to the players: all of them have begun it or know it, or one will not learn it.
    // Ascending.
    std::vector<tune::TuneId> settled_for_players() const;
    // Tunes that some players have begun or know, and who they are, in the order of the players.
    std::vector<std::pair<tune::TuneId, std::vector<std::string>>> known_by_players() const;
    // Tunes that players wish for, and how many do.
    std::map<tune::TuneId, std::int64_t> wishes_of_players() const;

    Reach reach() const;

    // NOTES of the question, names within the compass of the instrument.
    music::NoteSet notes(Part part, const std::string& text) const;

    // In which a note name is meant: the instrument's usual one, else that of most tunes.
    music::Compass compass() const;
    // The one in the hands, without the notes that are too hard: the one given, else that of the only player; null
    // where none was given. Lives as long as this.
    const instruments::Instrument* instrument() const;

    // Of an answer to `selection`, scraps apart.
    std::vector<Sieve> sieves_of(const collection::Tally& tally) const;

    // Notes that were named and are not on the instrument, of all that was asked so far.
    const std::vector<LeftOutNotes>& left_out() const noexcept { return left_out_; }

    const Filter& filter() const noexcept { return filter_; }
    const collection::Collection& collection() const noexcept { return collection_; }

private:
    const collection::PlayerRecord& asker() const;
    std::vector<planner::Member> members_of_players() const;
    instruments::Instrument up_to_grade(const instruments::Instrument& whole) const;
    planner::Member member(const std::string& text) const;
    music::NoteSet fits_all() const;
    collection::TuneChoice in_state() const;

    const collection::Collection& collection_;
    const Filter& filter_;
    std::vector<collection::PlayerRecord> players_;
    mutable std::optional<collection::PlayerRecord> asker_;
    mutable std::optional<instruments::Instrument> graded_;
    mutable std::vector<LeftOutNotes> left_out_;
};

}  // namespace answers
