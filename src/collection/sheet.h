// All that a filter, a sort or a count looks at, of every setting that is present: columns, one entry a setting. Who
// holds a collection makes the columns that are asked for; sieve and sort_order are functions of them, and the same
// whether the tunes lie in a database or in memory.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "collection/selection.h"
#include "music/key.h"
#include "music/note_set.h"
#include "tune/record.h"

namespace collection {

// Which columns are filled beside tunes, settings and needed. A bit each.
enum class Column : std::uint16_t {
    ornaments = 1 << 0,
    ends = 1 << 1,
    key = 1 << 2,
    candidates = 1 << 3,
    rhythm = 1 << 4,
    meter = 1 << 5,
    file = 1 << 6,
    line = 1 << 7,
    first_title = 1 << 8,
    titles = 1 << 9,
    scrap = 1 << 10,
    tags = 1 << 11,
};

class Columns {
public:
    Columns() = default;
    void add(Column column, bool is_wanted = true) noexcept {
        if (is_wanted) bits_ |= static_cast<unsigned>(column);
    }
    bool has(Column column) const noexcept { return (bits_ & static_cast<unsigned>(column)) != 0; }
    bool empty() const noexcept { return bits_ == 0; }

private:
    unsigned bits_ = 0;
};

struct SheetFile {
    std::string shown;
    std::string path;
};

struct Sheet {
    using Place = std::uint32_t;  // in the table a column names

    std::size_t size() const noexcept { return settings.size(); }

    // Ascending by tune, then setting.
    std::vector<tune::TuneId> tunes;
    std::vector<tune::SettingId> settings;
    std::vector<Place> needed;     // in note_sets
    std::vector<Place> ornaments;  // in note_sets
    std::vector<music::NoteSet> note_sets;

    std::vector<std::optional<std::uint8_t>> first_notes, last_notes;  // MIDI
    std::vector<std::optional<music::Key>> keys;                       // what a person said, else the headline
    std::vector<bool> are_keys_said;                                   // comes with `key`
    std::vector<Place> candidates;                                     // in candidate_lists
    std::vector<std::vector<music::Key>> candidate_lists;              // as in TuneRecord::key_candidates
    std::vector<Place> rhythms;  // in words; what a person said, else as found; empty where unknown
    std::vector<Place> meters;   // in words
    std::vector<std::string> words;
    std::vector<Place> files;  // in file_names
    std::vector<SheetFile> file_names;
    std::vector<std::uint32_t> lines;
    std::vector<std::optional<std::string>> first_titles;  // by tune::fold_title; empty where there is none
    std::vector<std::string> titles;                       // all, the same way, each ended by a line end
    std::vector<bool> are_scraps;
    // By tune::fold_tag: the tunes a person gave the tag, in any order. With Column::tags at least the one asked for.
    std::map<std::string, std::vector<tune::TuneId>> tagged;

    // Whose file, or whose place in it, is gone: not among the entries.
    std::int64_t gone_tunes = 0;  // those of which no setting is left
    std::int64_t gone_settings = 0;
};

// What sift has to see for a selection, and in_order for a sort.
Columns columns_of(const Selection& selection);
Columns columns_of(Sort sort);

}  // namespace collection
