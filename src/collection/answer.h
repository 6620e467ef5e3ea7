// What a collection answers to a selection, with what it left out and why.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "music/note_set.h"
#include "tune/record.h"

namespace collection {

// In the order of Selection.
enum class FilterBy : std::uint8_t {
    fits,
    missing,
    uses,
    avoids,
    rhythm,
    meter,
    tonic,
    mode,
    starts_on,
    ends_on,
    span,
    top,
    bottom,
    octave,
    title,
    file,
    tag,
    state,
    goes,
    scraps
};

std::string_view filter_token(FilterBy filter) noexcept;  // `starts-on`: as on the command line; static storage

// One filter that was given, and what it keeps away. A tune of several settings is judged by the one that fails fewest
// filters.
struct LeftOut {
    FilterBy filter = FilterBy::fits;
    std::int64_t fails = 0;  // rows that do not pass it
    std::int64_t alone = 0;  // of these, rows that pass all others: they come back when this filter is dropped

    friend bool operator==(const LeftOut&, const LeftOut&) = default;
};

// Counts tunes, or settings when one row a setting was asked for. What is gone is in none but `gone`.
struct Tally {
    std::int64_t matched = 0;  // before the limit
    std::int64_t left_out = 0;
    std::int64_t gone = 0;     // whose file, or whose place in the file, is gone
    std::vector<LeftOut> why;  // one for each filter given, in the order of Selection
    // Rows kept away by `tonic` or `mode` alone whose notes leave the key open and have what was asked among the
    // candidates.
    std::int64_t open_keys = 0;

    // Rows that only this filter keeps away.
    std::int64_t back_without(FilterBy filter) const {
        for (const LeftOut& out : why)
            if (out.filter == filter) return out.alone;
        return 0;
    }

    friend bool operator==(const Tally&, const Tally&) = default;
};

struct Answer : Tally {
    std::vector<tune::TuneRecord> rows;  // in the order asked for, at most `limit`
};

struct TuneNotes {
    tune::TuneId id;
    tune::SettingId setting;       // the matching one; of several the one imported first
    music::NoteSet needed;         // grace notes included when the selection says so
    bool has_other_notes = false;  // another matching setting of the tune does without some of these

    friend bool operator==(const TuneNotes&, const TuneNotes&) = default;
};

// By what the tunes of a step are counted.
struct SettingKind {
    tune::SettingId setting;
    std::string rhythm;  // a token; empty when unknown
    std::string key;     // the likeliest, as music::to_string writes it; empty when unknown

    friend bool operator==(const SettingKind&, const SettingKind&) = default;
};

// What a person says of a tune, without the tune: the weights of a path.
struct TuneMark {
    tune::TuneId id;
    std::optional<std::int64_t> count;  // from 0; empty when nobody said
    std::vector<std::string> tags;      // by tune::fold_tag, ascending

    friend bool operator==(const TuneMark&, const TuneMark&) = default;
};

struct NotesAnswer : Tally {
    std::vector<TuneNotes> rows;  // ascending by tune id, then setting id; all that match, whatever the limit
};

}  // namespace collection
