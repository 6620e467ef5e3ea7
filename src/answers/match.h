// Titles from somewhere else, and which tunes they are.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "tune/record.h"
#include "tune/title_list.h"
#include "tune/title_match.h"

namespace answers {

struct MatchQuestion {
    // Of tunes, not of settings. Its notes are told, not asked for, unless so many may be missing: then tunes that lack
    // more are left out, as all else leaves tunes out.
    Filter filter;
    std::vector<tune::ListedTitle> list;
    std::string name;  // what the list is called
};

struct MatchedLine {
    std::uint32_t line = 1;  // in the list
    tune::TitleMatch match;
    std::optional<tune::TuneRecord> tune;  // when matched
    bool is_left_out = false;              // the tune does not pass the other filters
};

struct MatchAnswer {
    std::string name;                    // of the list
    std::vector<MatchedLine> lines;      // as listed
    std::optional<music::NoteSet> have;  // the notes asked about, when any were
    std::vector<Sieve> why;              // filters that were given, and how many tunes of the collection fail each
    std::vector<LeftOutNotes> left_out_notes;
};

// Lines whose title is not surely that of a tune.
std::int64_t unsettled(const MatchAnswer& answer);

// Throws Refused.
MatchAnswer answer(const collection::Collection& collection, const MatchQuestion& question);

}  // namespace answers
