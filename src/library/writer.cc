// The statements, and the rows they write. Tested by store_file_test.cc.
#include "library/writer.h"
#include "library/content_hash.h"

#include <sqlite3.h>

#include <algorithm>
#include <utility>

#include "library/migrate.h"
#include "library/setting_columns.h"
#include "tune/title.h"

namespace library {

namespace {

// Memory for pages while importing, in KiB, and pages of journal before they are copied into the library.
// Source: house choice.
constexpr const char* kWhileImporting =
    "PRAGMA synchronous = NORMAL; PRAGMA cache_size = -65536; PRAGMA wal_autocheckpoint = "
    "4000;";

const Database& made_ready(const Database& database) {
    migrate(database);
    // SQLite does not always wait by itself for this.
    constexpr int kTries = 20;
    for (int tries = 1; tries < kTries && !database.exec_unless_busy("PRAGMA journal_mode = WAL"); ++tries)
        sqlite3_sleep(kBusyMilliseconds / kTries);
    database.exec("PRAGMA journal_mode = WAL");
    database.exec(kWhileImporting);
    return database;
}

constexpr const char* kIdentityColumns =
    "SELECT s.id, s.number, s.folded_title, s.melody_hash, s.note_count > 0, s.gone, s.file_id, s.line, s.occurrence, "
    "s.text_hash,"
    " s.analysis_version FROM setting s ";

StoredIdentity identity_of(const Statement& row) {
    StoredIdentity stored;
    stored.id = row.number(0);
    stored.identity = {row.optional_text(1), row.optional_text(2), static_cast<std::uint64_t>(row.number(3)),
                       row.number(4) != 0, row.number(5) != 0};
    stored.file_id = row.number(6);
    stored.line = row.number(7);
    stored.occurrence = row.number(8);
    stored.text_hash = static_cast<std::uint64_t>(row.number(9));
    stored.analysis_version = row.small_number(10);
    return stored;
}

}  // namespace

std::size_t Intake::Writer::NoteSetHash::operator()(const music::NoteSet& notes) const noexcept {
    // Fibonacci hashing; the halves are far apart in practice.
    return static_cast<std::size_t>((notes.low() ^ (notes.high() * 0x9E3779B97F4A7C15U)) * 0x9E3779B97F4A7C15U >> 7);
}

Intake::Writer::Writer(const std::filesystem::path& file)
    : lock_(file),
      database_(file, Access::write),
      any_gone_(made_ready(database_).number("SELECT EXISTS (SELECT 1 FROM setting WHERE gone = 1)") != 0),
      find_file_(database_, "SELECT id FROM file WHERE path = ?1", true),
      find_content_(database_, "SELECT id, gone FROM file WHERE content_hash = ?1 ORDER BY id", true),
      insert_file_(
          database_,
          "INSERT INTO file (path, shown, size, mtime_ns, imported_ns, content_hash) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
          true),
      update_file_(
          database_,
          "UPDATE file SET path = ?2, shown = iif(path = ?2, shown, ?3), size = ?4, mtime_ns = ?5, imported_ns = ?6,"
          " content_hash = ?7, gone = 0 WHERE id = ?1",
          true),
      forget_content_(database_, "UPDATE file SET content_hash = '' WHERE id = ?1", true),
      find_settings_(database_, std::string(kIdentityColumns) + "WHERE s.file_id = ?1 ORDER BY s.line, s.id", true),
      find_gone_(database_, std::string(kIdentityColumns) + "WHERE s.melody_hash = ?1 AND s.gone = 1 ORDER BY s.id",
                 true),
      insert_tune_(database_, "INSERT INTO tune DEFAULT VALUES", true),
      join_tune_(database_,
                 "UPDATE tune SET family_id = (SELECT tune_id FROM setting WHERE own_tune_id = ?2) WHERE id = ?1",
                 true),
      join_setting_(database_,
                    "UPDATE setting SET tune_id = (SELECT tune_id FROM setting WHERE own_tune_id = ?2) WHERE id = ?1",
                    true),
      insert_setting_(database_, kInsertSetting, true),
      update_setting_(database_, kUpdateSetting, true),
      place_setting_(database_, "UPDATE setting SET gone = 0, file_id = ?2, line = ?3, occurrence = ?4 WHERE id = ?1",
                     true),
      lose_setting_(database_, "UPDATE setting SET gone = 1 WHERE id = ?1", true),
      find_words_(database_, "SELECT folded FROM title WHERE setting_id = ?1 ORDER BY place", true),
      insert_title_(database_, "INSERT INTO title (setting_id, place, text, folded) VALUES (?1, ?2, ?3, ?4)", true),
      delete_titles_(database_, "DELETE FROM title WHERE setting_id = ?1", true),
      insert_words_(database_, "INSERT INTO title_search (rowid, folded) VALUES (?1, ?2)", true),
      delete_words_(database_, "INSERT INTO title_search (title_search, rowid, folded) VALUES ('delete', ?1, ?2)",
                    true),
      insert_abc_(database_, "INSERT INTO abc (setting_id, header_id, text) VALUES (?1, ?2, ?3)", true),
      update_abc_(database_, "UPDATE abc SET header_id = ?2, text = ?3 WHERE setting_id = ?1", true),
      find_header_(database_, "SELECT id FROM abc_header WHERE hash = ?1", true),
      insert_header_(database_, "INSERT INTO abc_header (hash, text) VALUES (?1, ?2)", true),
      find_note_set_(database_, "SELECT id FROM note_set WHERE low = ?1 AND high = ?2", true),
      insert_note_set_(database_, "INSERT INTO note_set (low, high) VALUES (?1, ?2)", true),
      insert_outline_(database_,
                      "INSERT INTO outline (setting_id, melody) VALUES (?1, ?2)"
                      " ON CONFLICT (setting_id) DO UPDATE SET melody = excluded.melody",
                      true),
      delete_oddities_(database_, "DELETE FROM oddity WHERE setting_id = ?1", true),
      insert_oddity_(database_,
                     "INSERT INTO oddity (setting_id, place, kind, severity, line, \"column\", message, advice)"
                     " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
                     true),
      delete_diagnostics_(database_, "DELETE FROM diagnostic WHERE file_id = ?1", true),
      insert_diagnostic_(database_,
                         "INSERT INTO diagnostic (file_id, line, \"column\", severity, code, message)"
                         " VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                         true) {}

std::vector<StoredIdentity> Intake::Writer::settings_in(std::int64_t file_id) {
    const Reset reset(find_settings_);
    find_settings_.bind(file_id);
    std::vector<StoredIdentity> settings;
    while (find_settings_.step()) settings.push_back(identity_of(find_settings_));
    return settings;
}

void Intake::Writer::set_vanished(std::span<const FileId> files) {
    vanished_.clear();
    vanished_settings_.clear();
    vanished_are_loaded_ = false;
    for (const FileId file : files) vanished_.insert(file.value);
}

std::vector<StoredIdentity> Intake::Writer::lost_settings(std::uint64_t melody_hash) {
    if (!vanished_are_loaded_) {
        for (const std::int64_t file : vanished_)
            for (StoredIdentity& setting : settings_in(file))
                if (!setting.identity.gone)
                    vanished_settings_.emplace(setting.identity.melody_hash, std::move(setting));
        vanished_are_loaded_ = true;
    }
    std::vector<StoredIdentity> lost;
    const auto [first, last] = vanished_settings_.equal_range(melody_hash);
    for (auto it = first; it != last; ++it)
        if (vanished_.contains(it->second.file_id)) lost.push_back(it->second);
    std::sort(lost.begin(), lost.end(), [](const StoredIdentity& a, const StoredIdentity& b) { return a.id < b.id; });
    const Reset reset(find_gone_);
    find_gone_.bind(melody_hash);
    while (find_gone_.step()) lost.push_back(identity_of(find_gone_));
    return lost;
}

void Intake::Writer::match_elsewhere(std::span<const Identity> incoming, std::vector<StoredIdentity>& stored,
                                     std::vector<std::optional<std::size_t>>& matches) {
    if (!any_gone_ && vanished_.empty()) return;
    std::unordered_set<std::int64_t> taken;
    for (const StoredIdentity& setting : stored) taken.insert(setting.id);
    for (const bool same_number : {true, false}) {
        for (std::size_t i = 0; i < incoming.size(); ++i) {
            if (matches[i] || !incoming[i].has_notes || (same_number && !incoming[i].number)) continue;
            std::optional<StoredIdentity> best;
            for (StoredIdentity& found : lost_settings(incoming[i].melody_hash)) {
                if (taken.contains(found.id) || (same_number && found.identity.number != incoming[i].number)) continue;
                const bool same_title = found.identity.folded_title == incoming[i].folded_title;
                if (!best || (same_title && best->identity.folded_title != incoming[i].folded_title))
                    best = std::move(found);
            }
            if (!best) continue;
            taken.insert(best->id);
            matches[i] = stored.size();
            stored.push_back(std::move(*best));
        }
    }
}

void Intake::Writer::insert_setting(const collection::StoredSetting& setting, const Identity& identity,
                                    const Place& place) {
    const std::int64_t needed_id = note_set_id(setting.facts.needed);
    const std::int64_t ornaments_id = note_set_id(setting.facts.ornaments);
    insert_tune_.run();
    const std::int64_t tune_id = database_.last_id();
    bind_setting(insert_setting_, setting, identity, place.file_id, needed_id, ornaments_id, place.occurrence,
                 place.text_hash, tune_id);
    const std::int64_t id = database_.last_id();
    insert_titles(id, setting, identity);
    insert_abc_.bind(id, place.header_id, setting.abc).run();
    insert_outline(id, setting);
    insert_oddities(id, setting);
    join_its_class(id, tune_id, setting.facts.melody_class);
}

void Intake::Writer::join_its_class(std::int64_t setting_id, std::int64_t tune_id,
                                    std::optional<std::uint64_t> melody_class) {
    if (!melody_class) return;
    if (!class_members_) {
        class_members_.emplace();
        Statement members(database_,
                          "SELECT melody_class, own_tune_id FROM setting WHERE melody_class IS NOT NULL AND id <> ?1"
                          " ORDER BY own_tune_id");
        members.bind(setting_id);
        while (members.step())
            class_members_->emplace(static_cast<std::uint64_t>(members.number(0)), members.number(1));
    }
    const auto [member, is_first] = class_members_->emplace(*melody_class, tune_id);
    if (is_first) return;
    join_tune_.bind(tune_id, member->second).run();
    join_setting_.bind(setting_id, member->second).run();
}

void Intake::Writer::update_setting(std::int64_t id, const collection::StoredSetting& setting, const Identity& identity,
                                    const Place& place) {
    bind_setting(update_setting_, setting, identity, place.file_id, note_set_id(setting.facts.needed),
                 note_set_id(setting.facts.ornaments), place.occurrence, place.text_hash, id);
    remove_titles(id);
    insert_titles(id, setting, identity);
    update_abc_.bind(id, place.header_id, setting.abc).run();
    insert_outline(id, setting);
    delete_oddities_.bind(id).run();
    insert_oddities(id, setting);
}

void Intake::Writer::place_setting(std::int64_t id, const collection::StoredSetting& setting, const Place& place) {
    place_setting_.bind(id, place.file_id, setting.line, place.occurrence).run();
    delete_oddities_.bind(id).run();  // their lines have moved with it
    insert_oddities(id, setting);
}

void Intake::Writer::insert_outline(std::int64_t setting_id, const collection::StoredSetting& setting) {
    insert_outline_.bind(setting_id, Bytes{setting.outline}).run();
}

void Intake::Writer::insert_oddities(std::int64_t setting_id, const collection::StoredSetting& setting) {
    std::int64_t place = 0;
    for (const collection::StoredOddity& odd : setting.oddities)
        insert_oddity_
            .bind(setting_id, place++, tune::oddity_token(odd.kind), base::severity_token(odd.severity), odd.line,
                  odd.column, odd.message, odd.advice)
            .run();
}

void Intake::Writer::remove_titles(std::int64_t setting_id) {
    std::string words;
    {
        const Reset reset(find_words_);
        find_words_.bind(setting_id);
        while (find_words_.step()) words.append(find_words_.text(0)) += '\n';
    }
    if (words.empty()) return;
    delete_words_.bind(setting_id, words).run();
    delete_titles_.bind(setting_id).run();
}

void Intake::Writer::insert_titles(std::int64_t setting_id, const collection::StoredSetting& setting,
                                   const Identity& identity) {
    std::string words;
    for (std::size_t place = 0; place < setting.titles.size(); ++place) {
        const std::string folded = place == 0 ? *identity.folded_title : tune::fold_title(setting.titles[place]);
        insert_title_.bind(setting_id, static_cast<std::int64_t>(place), setting.titles[place], folded).run();
        (words += folded) += '\n';
    }
    if (!words.empty()) insert_words_.bind(setting_id, words).run();
}

void Intake::Writer::store_diagnostics(std::int64_t file_id, const collection::StoredFile& file, bool is_new) {
    if (!is_new) delete_diagnostics_.bind(file_id).run();
    for (const collection::StoredDiagnostic& odd : file.diagnostics)
        insert_diagnostic_
            .bind(file_id, odd.line, odd.column, base::severity_token(odd.severity), odd.code, odd.message)
            .run();
}

std::int64_t Intake::Writer::note_set_id(const music::NoteSet& notes) {
    if (const auto known = note_sets_.find(notes); known != note_sets_.end()) return known->second;
    std::int64_t id = 0;
    {
        const Reset reset(find_note_set_);
        if (find_note_set_.bind(notes.low(), notes.high()).step()) id = find_note_set_.number(0);
    }
    if (id == 0) {
        insert_note_set_.bind(notes.low(), notes.high()).run();
        id = database_.last_id();
    }
    note_sets_.emplace(notes, id);
    return id;
}

std::optional<std::int64_t> Intake::Writer::header_id(const std::string& header) {
    if (header.empty()) return std::nullopt;
    const std::string hash = content_hash(header);
    const Reset reset(find_header_);
    if (find_header_.bind(hash).step()) return find_header_.number(0);
    insert_header_.bind(hash, header).run();
    return database_.last_id();
}

}  // namespace library
