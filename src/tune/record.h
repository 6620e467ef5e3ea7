// A setting as the library knows it: who it is, what it says, what was found.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "music/key.h"
#include "music/note_set.h"
#include "tune/finding.h"
#include "tune/scrap.h"

namespace tune {

// A tune keeps its id for as long as the library lives. A setting is known by its file and X: number, failing that by
// its melody: files that move, are renumbered or corrected keep their ids, and so everything a person said of them.
struct TuneId {
    std::int64_t value = 0;
    friend auto operator<=>(const TuneId&, const TuneId&) = default;
};

struct SettingId {
    std::int64_t value = 0;
    friend auto operator<=>(const SettingId&, const SettingId&) = default;
};

struct TuneRecord {
    TuneId id;
    TuneId own;  // the tune it would be, were it not one with others
    SettingId setting;
    int settings = 1;                   // of its tune, that are there
    std::vector<std::string> titles;    // may be empty
    std::string file;                   // relative to the imported folder where it lies below it
    std::optional<std::string> number;  // X:
    std::uint32_t line = 1;
    std::optional<Finding<std::string>> rhythm;
    std::optional<std::string> rhythm_stated;  // R: as written
    std::vector<std::string> rhythm_possible;  // as in TuneFacts
    std::string meter;                         // `6/8`, `none`
    std::string key_stated;                    // of the first K:, `G major`, `none`, `highland-pipes`
    std::optional<std::string> key_in_force;   // of another K: between it and the first note
    std::optional<music::Key> key;             // what the tune is called by
    Basis key_basis = Basis::computed;         // stated: the notes leave it open, and K: says so; or said by a person
    std::vector<music::Key> key_candidates;    // computed, the likeliest first, whatever was said
    bool key_decided = false;                  // by the notes, or because a person said it
    std::vector<music::Key> part_keys;         // one a part, the likeliest; empty where no part has a key of its own
    std::string form;                          // `AABB`; empty without music
    std::optional<int> largest_leap;           // semitones, up or down
    music::NoteSet needed;
    music::NoteSet ornaments;
    int note_count = 0;
    std::optional<int> first_note;  // MIDI
    std::optional<int> last_note;
    int bars = 0;
    int different_bars = 0;
    std::optional<Scrap> scrap;         // empty for a tune
    std::size_t errors = 0;             // faults met when it was read
    std::vector<std::string> tags;      // what a person calls the tune: as first written, ascending by fold_tag
    std::optional<std::int64_t> count;  // how often it was asked for or played, from 0; empty when nobody said

    friend bool operator==(const TuneRecord&, const TuneRecord&) = default;
};

// What a tune is danced as and paced by: its rhythm, but where the meter contradicts R:, the likeliest kind that it
// allows. What a person said stands.
std::optional<Finding<std::string>> danced_rhythm(const TuneRecord& record);

// Sharps of the signature a record's notes are spelled beside; 0 where the file states none.
int spelling_fifths(const TuneRecord& record);

std::string title_of(const TuneRecord& record);  // the first; kNoTitle where there is none

}  // namespace tune
