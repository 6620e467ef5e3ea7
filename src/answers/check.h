// What looks wrong in a collection.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "base/diagnostics.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "tune/oddity.h"
#include "tune/record.h"

namespace answers {

struct CheckQuestion {
    Filter filter;                                    // an instrument says what is out of reach
    std::optional<std::set<tune::OddityKind>> kinds;  // else all
    std::optional<base::Severity> least;              // no slighter ones
    std::optional<std::string> reach;                 // NOTES; else those of the instrument
    std::optional<std::int64_t> limit;                // of each kind told, all counted
};

// Another tune that is probably the same, and how to say whether it is.
struct FoundTwin {
    tune::TuneRecord record;  // the other
    double likeness = 0;      // 0 to 1
    tune::TuneId one, other;  // own ids, ascending

    friend bool operator==(const FoundTwin&, const FoundTwin&) = default;
};

struct CheckedOddity {
    std::optional<tune::TuneId> tune;  // empty for what belongs to a file and no tune
    std::string title;                 // empty when there is none
    std::string file;
    std::uint32_t line = 1;    // from 1
    std::uint32_t column = 1;  // from 1, in code points
    tune::OddityKind kind = tune::OddityKind::unreadable;
    base::Severity severity = base::Severity::warning;
    std::string message;  // as it was found when the file was read; empty for a twin and for what is out of reach
    std::string advice;   // may be empty
    std::optional<FoundTwin> twin{};
    music::NoteSet outside{};  // notes that are out of reach
    int fifths = 0;            // of the signature that spells them
};

struct CheckAnswer {
    std::vector<CheckedOddity> rows;                  // those told, by kind; within one in the order they were found
    std::map<tune::OddityKind, std::int64_t> counts;  // of all, told or not; kinds without any may be left out
    std::int64_t settings_checked = 0;
    std::int64_t tunes_checked = 0;
    std::optional<std::int64_t> files_checked;  // empty where only some tunes were asked about
    std::int64_t matched() const;
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
CheckAnswer answer(const collection::Collection& collection, const CheckQuestion& question);

}  // namespace answers
