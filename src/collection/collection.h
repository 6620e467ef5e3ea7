// A folder of tunes with all that people said of it, as something that can be asked: by whatever holds it. A library
// answers from SQLite, a Memory from itself; the same questions get the same answers.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "collection/answer.h"
#include "collection/player_record.h"
#include "collection/selection.h"
#include "collection/stored_setting.h"
#include "tune/outline.h"
#include "tune/title_match.h"

namespace collection {

// What a person said of two tunes, by their own ids.
struct Verdict {
    tune::TuneId one;
    tune::TuneId other;
    bool is_same = true;

    friend bool operator==(const Verdict&, const Verdict&) = default;
};

// A setting's own ABC, behind its file's header where it has one: readable as a file of its own.
struct AbcText {
    std::string text;        // UTF-8
    std::string file;        // as shown
    std::uint32_t line = 1;  // of its X: in `file`
    bool gone = false;       // the file, or its place in it, is no longer there
};

struct Counts {
    std::int64_t files = 0;
    std::int64_t tunes = 0;
    std::int64_t settings = 0;
    std::int64_t files_gone = 0;
    std::int64_t settings_gone = 0;
};

// A melody as it is compared and searched.
struct StoredOutline {
    tune::SettingId setting;
    tune::TuneId tune;
    tune::TuneId own;
    std::string_view bytes;  // as tune::encode_outline; lives until the visit returns
};

// What looks wrong in a setting, or in a file outside any.
struct FoundOddity {
    std::optional<tune::TuneId> tune;
    std::optional<tune::SettingId> setting;
    std::string title;  // of the setting, the first; empty when it has none
    std::string file;   // as shown
    StoredOddity oddity;
};

// What was odd in a file when it was last read.
struct FileDiagnostic {
    std::string file;  // as shown
    StoredDiagnostic diagnostic;
};

// What a person said that it means this tune.
struct Alias {
    std::string folded;  // as tune::fold_title leaves it
    std::string text;    // as written
    tune::TuneId tune;   // of its family

    friend bool operator==(const Alias&, const Alias&) = default;
};

// Nothing is changed by asking. Settings that are gone answer only where that is said. Whoever holds the collection in
// a file throws base::Failure when it cannot be read or is damaged.
class Collection {
public:
    virtual ~Collection() = default;

    virtual Answer select_tunes(const Selection& selection) const = 0;
    // For the planner: no titles are loaded; sort and limit do not matter.
    virtual NotesAnswer select_notes(const Selection& selection) const = 0;

    // By any of its titles, by tune::fold_title. Tunes whose title is exactly that; if there is none, tunes with a
    // title of which it is a part. Sorted by title.
    virtual std::vector<tune::TuneRecord> tunes_titled(std::string_view title) const = 0;
    // The same, one a setting; `own` tells them apart. Ascending by own.
    virtual std::vector<tune::TuneRecord> settings_titled(std::string_view title) const = 0;
    // Every tune that has a title, with the titles of all its settings and what else a person writes for it; ascending
    // by id.
    virtual std::vector<tune::TitledTune> titled_tunes() const = 0;

    // Also tunes that are gone, in the order of `ids`; of a tune of several settings the first that is not gone.
    // Unknown ids are left out.
    virtual std::vector<tune::TuneRecord> tunes_by_id(std::span<const tune::TuneId> ids) const = 0;
    std::optional<tune::TuneRecord> tune_by_id(tune::TuneId id) const;
    // The setting whose own tune this is, present or gone.
    virtual std::optional<tune::TuneRecord> setting_of_own(tune::TuneId own) const = 0;
    virtual std::vector<tune::TuneRecord> settings_of(tune::TuneId id) const = 0;  // present ones, by id
    // One a setting; empty when unknown or untitled.
    virtual std::vector<std::string> first_titles(std::span<const tune::SettingId> settings) const = 0;
    virtual std::vector<tune::TuneId> own_ids(std::span<const tune::SettingId> settings) const = 0;  // 0 when unknown

    // Of every setting that is present, ascending; and which of all are scraps, ascending.
    virtual std::vector<SettingKind> setting_kinds() const = 0;
    virtual std::vector<tune::SettingId> scraps() const = 0;

    // Of settings that are present, ascending by setting.
    virtual void visit_outlines(const std::function<void(const StoredOutline&)>& visit) const = 0;
    virtual std::optional<tune::Outline> outline_of(tune::SettingId setting) const = 0;  // also of settings gone
    virtual std::optional<AbcText> abc_of(tune::SettingId setting) const = 0;            // the same

    // Of present settings and files; by file, then line and column. Findings of the reader are among them, by their
    // kind.
    virtual std::vector<FoundOddity> oddities() const = 0;
    virtual std::vector<FileDiagnostic> diagnostics() const = 0;  // by file, line, column; files present
    virtual Counts counts() const = 0;

    // Only tunes that have a tag or a count, also tunes that are gone; ascending by id.
    virtual std::vector<TuneMark> marks() const = 0;
    // What a person writes for certain tunes, also ones that are gone; ascending by `folded`.
    virtual std::vector<Alias> aliases() const = 0;
    // All that a person said of two tunes, in the order it was said.
    virtual std::vector<Verdict> verdicts() const = 0;
    virtual std::optional<PlayerRecord> player_named(std::string_view name) const = 0;  // by tune::fold_player_name
    virtual std::vector<PlayerRecord> players() const = 0;                              // ascending by folded name
    virtual std::vector<PlayerClass> player_classes() const = 0;                        // the same
    virtual std::vector<PlayerHappening> history_of(tune::PlayerId player) const = 0;   // the latest first
};

}  // namespace collection
