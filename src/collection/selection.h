// Which tunes are asked for, in which order: the part of the filter that needs no player and no instrument.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "music/key.h"
#include "music/note_set.h"
#include "tune/record.h"

namespace collection {

// Lacks so many of its needed notes.
struct Missing {
    music::NoteSet have;
    int at_most = 0;
    int at_least = 0;
};

// home: the range runs exactly from a tonic to the one an octave above. any: the range is 12 semitones or fewer.
enum class OctaveRange : std::uint8_t { home, any };

// Each ends in title, file, line and id, so the order is total. What has no title, key, rhythm or note comes last.
// key: tonic upwards from C, then mode. range: semitones, small first. notes: how many different, few first.
// added: what came into the library last comes first.
// heard: in the order of Selection::goes, which must be given. missing: what lacks fewest of the notes of
// Selection::missing or fits, one of which must be given, comes first.
enum class Sort : std::uint8_t { title, key, rhythm, range, notes, missing, file, added, heard };

std::string_view sort_token(Sort sort) noexcept;
std::optional<Sort> parse_sort(std::string_view token) noexcept;

// Tunes by their ids: these, or all but these.
struct TuneChoice {
    std::vector<tune::TuneId> tunes;  // in any order, also more than once
    bool is_left_out = false;
};

// What is not given does not filter; all that is given must hold. "Needed" means melody notes, and grace notes too with
// `ornaments`.
struct Selection {
    std::optional<music::NoteSet> fits;  // every needed note is in it (true of a setting without notes)
    std::optional<Missing> missing;
    std::vector<music::NoteSet> uses;  // of each entry at least one note is needed: an F# of any octave is one entry
    std::optional<music::NoteSet> avoids;     // none of it is needed
    std::optional<std::string> rhythm;        // a rhythm token, any case
    std::optional<std::string> meter;         // `6/8`, `none`
    std::optional<int> tonic;                 // pitch class of the computed key, 0..11
    std::optional<music::Mode> mode;          // of the computed key
    std::optional<music::NoteSet> starts_on;  // alternatives
    std::optional<music::NoteSet> ends_on;
    std::optional<int> span;    // range of at most so many semitones; a setting without notes has no range
    std::optional<int> top;     // MIDI: no note is higher; a setting without notes has neither top nor bottom
    std::optional<int> bottom;  // no note is lower
    std::optional<OctaveRange> octave;
    // Words, each the beginning of a word of one of its titles; case and accents ignored.
    std::optional<std::string> title;
    std::optional<std::string> file;  // part of the shown file name, case ignored
    std::optional<std::string> tag;   // its tune has this tag, by tune::fold_tag
    std::optional<TuneChoice> state;  // what a player says of it
    // These settings, the best first: found by their melody, which no column tells.
    std::optional<std::vector<tune::SettingId>> goes;
    bool scraps = true;      // false: none that is a scrap
    bool ornaments = false;  // grace notes count as needed
    // Of the settings of a tune that pass alike, the one that lacks fewest of these notes is taken; else the first.
    std::optional<music::NoteSet> nearest_to;
    bool settings = false;  // one row a setting instead of one a tune
    Sort sort = Sort::title;
    std::optional<std::int64_t> limit;  // rows at most

    // Of which what is lacking is told and counted.
    std::optional<music::NoteSet> notes_at_hand() const { return missing ? std::optional(missing->have) : fits; }
};

}  // namespace collection
