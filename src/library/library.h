// Questions to a library: one SQLite file, opened to read and never changed by asking.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "library/answer.h"
#include "library/players.h"
#include "library/selection.h"
#include "library/stored_setting.h"
#include "tune/outline.h"
#include "tune/title_match.h"

namespace library {

class Database;

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

// Every function throws base::Failure when the file cannot be read or is damaged. Settings that are gone answer only
// where that is said. For one thread.
class Library {
public:
    // Throws Failure when there is no such file, when it is not a library, when it was written by a newer gamut, or by
    // an older one whose tables differ (an import brings it up to date).
    static Library open_existing(const std::filesystem::path& file);

    Library(Library&&) noexcept;
    Library& operator=(Library&&) noexcept;
    ~Library();

    // tunes_that.cc
    Answer select_tunes(const Selection& selection) const;
    // For the planner: no titles are loaded; sort and limit do not matter.
    NotesAnswer select_notes(const Selection& selection) const;

    // tunes_titled.cc: by any of its titles, by tune::fold_title. Tunes whose title is exactly that; if there is none,
    // tunes with a title of which it is a part. Sorted by title.
    std::vector<tune::TuneRecord> tunes_titled(std::string_view title) const;

    // titled_tunes.cc: every tune that has a title, with the titles of all its settings; ascending by id.
    std::vector<tune::TitledTune> titled_tunes() const;

    // tunes_by_id.cc: also tunes that are gone; of a tune of several settings the first that is not gone. Unknown ids
    // are left out.
    std::optional<tune::TuneRecord> tune_by_id(tune::TuneId id) const;
    std::vector<tune::TuneRecord> tunes_by_id(std::span<const tune::TuneId> ids) const;  // in the order of `ids`
    // One a setting; empty when unknown or untitled.
    std::vector<std::string> first_titles(std::span<const tune::SettingId> settings) const;
    std::vector<tune::TuneId> own_ids(std::span<const tune::SettingId> settings) const;  // 0 when unknown
    std::vector<tune::TuneRecord> settings_of(tune::TuneId id) const;                    // present ones, by id

    // tunes_marked.cc: only tunes that have a tag or a count, also tunes that are gone; ascending by id. No tune is
    // looked at for it: its cost goes with what was marked.
    std::vector<TuneMark> marks() const;

    // players_read.cc
    std::optional<PlayerRecord> player_named(std::string_view name) const;  // by tune::fold_player_name
    std::vector<PlayerRecord> players() const;                              // ascending by folded name
    std::vector<PlayerHappening> history_of(tune::PlayerId player) const;   // the latest first

    // setting_kinds.cc: of every setting that is present, ascending; and which of all are scraps, ascending.
    std::vector<SettingKind> setting_kinds() const;
    std::vector<tune::SettingId> scraps() const;

    // outlines.cc: of settings that are present, ascending by setting.
    void visit_outlines(const std::function<void(const StoredOutline&)>& visit) const;

    std::optional<tune::Outline> outline_of(tune::SettingId setting) const;  // also of settings that are gone

    // oddities.cc: of present settings and files; by file, then line and column. Findings of the reader are among them,
    // by their kind.
    std::vector<FoundOddity> oddities() const;

    // tunes_titled.cc: the same, one a setting; `own` tells them apart. Ascending by own.
    std::vector<tune::TuneRecord> settings_titled(std::string_view title) const;
    // tunes_by_id.cc: the setting whose own tune this is, present or gone.
    std::optional<tune::TuneRecord> setting_of_own(tune::TuneId own) const;

    // outlines.cc: all that a person said of two tunes, in the order it was said.
    std::vector<Verdict> verdicts() const;

    // contents.cc
    std::optional<AbcText> abc_of(tune::SettingId setting) const;  // also of settings that are gone
    Counts counts() const;
    std::vector<FileDiagnostic> diagnostics() const;  // by file, line, column; files present

private:
    explicit Library(std::unique_ptr<Database> database);

    std::unique_ptr<Database> database_;
};

}  // namespace library
