// The statements an import writes with, prepared once. Private to this room.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "library/database.h"
#include "library/import_lock.h"
#include "library/intake.h"
#include "library/settings_matched.h"
#include "library/statement.h"
#include "music/note_set.h"

namespace library {

struct StoredIdentity {
    Identity identity;
    std::int64_t id = 0;
    std::int64_t file_id = 0;
    std::int64_t line = 1;
    std::int64_t occurrence = 0;
    std::uint64_t text_hash = 0;
    int analysis_version = 0;
};

class Intake::Writer {
public:
    explicit Writer(const std::filesystem::path& file);

    SettingCounts store_file(const collection::StoredFile& file);
    GoneCounts mark_gone(std::span<const FileId> files);
    void touch_files(std::span<const Touch> files);
    std::vector<KnownFile> known_files() const;
    collection::OddCounts odd_counts() const;
    void settle();
    void rest();
    void forget_ids() {  // after a transaction was undone they may be gone
        note_sets_.clear();
        class_members_.reset();
    }
    void set_vanished(std::span<const FileId> files);

private:
    struct FileRow {
        std::int64_t id = 0;
        bool is_new = false;
    };
    struct Place {  // of an incoming setting
        std::int64_t file_id = 0;
        std::int64_t occurrence = 0;
        std::uint64_t text_hash = 0;
        std::optional<std::int64_t> header_id;
    };

    FileRow file_row(const collection::StoredFile& file);
    std::optional<std::int64_t> moved_from(const collection::StoredFile& file);
    std::vector<StoredIdentity> settings_in(std::int64_t file_id);
    // Appends to `stored` what has come over from elsewhere, and points `matches` at it.
    void match_elsewhere(std::span<const Identity> incoming, std::vector<StoredIdentity>& stored,
                         std::vector<std::optional<std::size_t>>& matches);
    void insert_setting(const collection::StoredSetting& setting, const Identity& identity, const Place& place);
    void update_setting(std::int64_t id, const collection::StoredSetting& setting, const Identity& identity,
                        const Place& place);
    // The settings of this melody that are gone or in vanished files; of equals those of vanished files first, then by
    // id.
    std::vector<StoredIdentity> lost_settings(std::uint64_t melody_hash);
    void place_setting(std::int64_t id, const collection::StoredSetting& setting,
                       const Place& place);  // as it was, at another place
    // A new setting of a melody that is here is no tune of its own, not even until families are settled: others read
    // between two files.
    void join_its_class(std::int64_t setting_id, std::int64_t tune_id, std::optional<std::uint64_t> melody_class);
    void insert_outline(std::int64_t setting_id, const collection::StoredSetting& setting);
    void insert_oddities(std::int64_t setting_id, const collection::StoredSetting& setting);
    void remove_titles(std::int64_t setting_id);
    void insert_titles(std::int64_t setting_id, const collection::StoredSetting& setting, const Identity& identity);
    void store_diagnostics(std::int64_t file_id, const collection::StoredFile& file, bool is_new);
    std::int64_t note_set_id(const music::NoteSet& notes);
    std::optional<std::int64_t> header_id(const std::string& header);

    struct NoteSetHash {
        std::size_t operator()(const music::NoteSet& notes) const noexcept;
    };

    ImportLock lock_;  // before the database and, so, released after it
    Database database_;
    bool any_gone_ = false;  // some setting is: only then is it worth looking for what has come back elsewhere
    std::unordered_map<music::NoteSet, std::int64_t, NoteSetHash> note_sets_;
    // By melody class the own tune of one setting, once it has been asked for.
    std::optional<std::unordered_map<std::uint64_t, std::int64_t>> class_members_;
    std::unordered_set<std::int64_t> vanished_;  // files no longer on the disk, not marked gone
    std::unordered_multimap<std::uint64_t, StoredIdentity>
        vanished_settings_;  // by melody, once they have been asked for
    bool vanished_are_loaded_ = false;

    Statement find_file_, find_content_, insert_file_, update_file_, forget_content_;
    Statement find_settings_, find_gone_;
    Statement insert_tune_, join_tune_, join_setting_, insert_setting_, update_setting_, place_setting_, lose_setting_;
    Statement find_words_, insert_title_, delete_titles_, insert_words_, delete_words_, insert_abc_, update_abc_,
        find_header_, insert_header_;
    Statement find_note_set_, insert_note_set_, insert_outline_, delete_oddities_, insert_oddity_, delete_diagnostics_,
        insert_diagnostic_;
};

}  // namespace library
