// Which tunes: by their columns, by notes, by ear.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "tune/record.h"

namespace answers {

// Rows of what is found by ear, unless more or fewer are asked for. Source: house choice; who looks for one tune reads
// no further.
constexpr std::int64_t kRowsByEar = 20;

struct TunesQuestion {
    Filter filter;           // its columns hold order and limit too
    bool is_sorted = false;  // the order was asked for; else what was heard is in the order of how well it fits
    std::optional<std::string> heard;         // a phrase, see analysis/heard.h
    bool at_start = false;                    // the tune begins with it
    std::optional<std::int64_t> screenful{};  // rows, where neither a filter nor a limit is given
};

// Where a phrase is found in a setting.
struct HeardAt {
    int errors = 0;           // notes that differ
    int bar = 0;              // where it begins, as a player counts; 0 in the pick-up
    std::string_view begins;  // `tune`, `part`, `within`: what begins there; static storage
    int semitones = 0;        // -5 to 6: how far the tune lies above what was asked for, octaves left out
};

struct TunesAnswer {
    std::vector<tune::TuneRecord> rows;
    std::optional<music::NoteSet> have;  // the notes asked about, when any were
    bool by_setting = false;             // one row a setting
    std::int64_t matched = 0;            // before a limit
    bool is_screenful = false;           // the limit is that of a screen, as TunesQuestion says
    std::int64_t left_out = 0;
    std::int64_t gone = 0;  // whose file is no longer there
    std::vector<Sieve> why;
    std::int64_t open_keys = 0;  // left out by tonic or mode alone, with what was asked among the candidates
    std::map<tune::SettingId, HeardAt> heard;  // of rows found by ear
    std::vector<LeftOutNotes> left_out_notes;
};

// The title without the rhythm behind it, as in `Lamp -- Reel` and `LAMP -- REEL., THE`, for where the rhythm is told
// beside it.
std::string title_beside_rhythm(const tune::TuneRecord& record);

// Throws Refused.
TunesAnswer answer(const collection::Collection& collection, const TunesQuestion& question);

}  // namespace answers
