// What a term is asked for with, field by field, and what becomes of it while the term is kept.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/filter.h"
#include "base/date.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "syllabus/term.h"
#include "tune/player.h"

namespace answers {

// What nobody said is empty; the defaults stand in syllabus/term.h and syllabus/course.h.
struct TermRequest {
    // A tune that must come, by a day or with a numbered lesson, from 1, at the latest; with neither: by the end.
    struct Must {
        std::string tune;  // an id, a title or a part of one; an id once the term is kept
        std::optional<base::Date> by_date{};
        std::optional<int> by_lesson{};  // to syllabus::kMostLessons
    };

    std::optional<base::Date> from;  // without it nothing is asked for
    std::optional<std::chrono::weekday> on;
    std::optional<int> lessons;  // 1 to syllabus::kMostLessons
    std::vector<syllabus::DateRange> breaks;
    std::optional<std::string> have;   // NOTES that are there, in the place of players
    std::optional<int> notes_every;    // 1 to syllabus::kMostLessons
    std::optional<int> tunes_each;     // 1 to syllabus::kMostTunesEach
    std::optional<int> steps;          // 0 to music::kMidiNotes
    std::optional<std::string> first;  // NOTES in the order they are to come
    std::vector<Must> musts;
    std::vector<std::string> begin;         // tunes, as Must::tune
    std::vector<std::string> without;       // the same
    std::optional<std::size_t> max_states;  // 1 to kMostTermStates
    Filter filter;                          // of tunes, not of settings; nothing is said of what is missing
};

constexpr std::size_t kMostTermStates = 20'000'000;  // Source: house choice; some gigabytes

// Stands for a player who was removed, and whose name is kept nowhere.
constexpr std::string_view kRemovedPlayer = "a removed player";

// The same from another day: breaks are those of `besides`, days by which a tune must come move along, and what
// `besides` asks for stands in the place of what was: notes and players in that of both.
TermRequest again_from(const TermRequest& request, base::Date from, const TermRequest& besides);

// The same with tunes named by their ids, so that it means the same tunes whatever becomes of titles, the players of a
// class by their names, and the notes of a player (@NAME) as they are now. Throws Refused where one is no tune, or may
// be several.
TermRequest with_ids(TermRequest request, const collection::Collection& collection);

// Somebody of a term who is no longer there.
struct Gone {
    std::string player;               // kRemovedPlayer where no name is kept
    std::optional<StateAsked> state;  // instead: nobody is left whose tunes this could mean
};

// The same without players that are no longer there, which `gone` tells; where nobody is left, `have` stands in their
// place.
TermRequest for_those_left(TermRequest request, const collection::Collection& collection, const music::NoteSet& have,
                           std::vector<Gone>& gone);

// The tunes that it names, once they are named by ids.
std::vector<tune::TuneId> tunes_named_in(const TermRequest& request);

// With another name for one of its players.
TermRequest with_renamed(TermRequest request, const tune::PlayerName& from, const std::string& to);

// With kRemovedPlayer for the name of somebody who is no player any longer, and in the place of whatever other words
// say that name.
TermRequest with_unnamed(TermRequest request, const tune::PlayerName& name);

}  // namespace answers
