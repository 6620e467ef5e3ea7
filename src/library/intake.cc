// Tested by intake_test.cc.
#include "library/intake.h"

#include <algorithm>

#include "base/failure.h"
#include "library/families.h"
#include "library/journal_rows.h"
#include "library/writer.h"

namespace library {

Intake::Intake(std::unique_ptr<Writer> writer) : writer_(std::move(writer)) {}
Intake::Intake(Intake&&) noexcept = default;

Intake::~Intake() {
    if (writer_ == nullptr) return;
    try {
        writer_->rest();
    } catch (const base::Failure&) {
        // All that was stored is safe in the journal; the next one to open the library finds it there.
    }
}

Intake Intake::open(const std::filesystem::path& file) { return Intake(std::make_unique<Writer>(file)); }

std::vector<KnownFile> Intake::known_files() const { return writer_->known_files(); }

collection::OddCounts Intake::odd_counts() const { return writer_->odd_counts(); }

void Intake::set_vanished(std::span<const FileId> files) { writer_->set_vanished(files); }

SettingCounts Intake::store_file(const collection::StoredFile& file) {
    try {
        return writer_->store_file(file);
    } catch (...) {
        writer_->forget_ids();
        throw;
    }
}

void Intake::touch_files(std::span<const Touch> files) { writer_->touch_files(files); }
Intake::GoneCounts Intake::mark_gone(std::span<const FileId> files) { return writer_->mark_gone(files); }

void Intake::close() {
    writer_->settle();
    writer_->rest();
    writer_.reset();
}

std::vector<KnownFile> Intake::Writer::known_files() const {
    struct Present {
        std::int64_t settings = 0;
        bool facts_are_current = true;
    };
    std::unordered_map<std::int64_t, Present> present;
    Statement settings(
        database_,
        "SELECT file_id, count(*), min(analysis_version), max(analysis_version) FROM setting WHERE gone = 0"
        " GROUP BY file_id");
    while (settings.step())
        present[settings.number(0)] = {settings.number(1), settings.number(2) == tune::kAnalysisVersion &&
                                                               settings.number(3) == tune::kAnalysisVersion};
    std::vector<KnownFile> files;
    Statement rows(database_,
                   "SELECT id, path, size, mtime_ns, imported_ns, content_hash, gone FROM file ORDER BY path");
    while (rows.step()) {
        const std::int64_t id = rows.number(0);
        const Present& here = present[id];
        files.push_back({{id},
                         std::string(rows.text(1)),
                         rows.number(2),
                         rows.number(3),
                         rows.number(4),
                         std::string(rows.text(5)),
                         here.settings,
                         rows.number(6) != 0,
                         here.facts_are_current});
    }
    return files;
}

collection::OddCounts Intake::Writer::odd_counts() const {
    collection::OddCounts counts;
    Statement rows(database_,
                   "SELECT d.severity, count(*) FROM diagnostic d JOIN file f ON f.id = d.file_id WHERE f.gone = 0"
                   " GROUP BY d.severity");
    while (rows.step())
        if (const auto severity = base::parse_severity(rows.text(0))) counts.of(*severity) = rows.number(1);
    return counts;
}

void Intake::Writer::touch_files(std::span<const Touch> files) {
    if (files.empty()) return;
    Transaction transaction(database_);
    Statement update(database_, "UPDATE file SET mtime_ns = ?2, imported_ns = ?3 WHERE id = ?1");
    for (const Touch& file : files) update.bind(file.id.value, file.mtime_ns, file.imported_ns).run();
    transaction.commit();
}

Intake::GoneCounts Intake::Writer::mark_gone(std::span<const FileId> files) {
    GoneCounts counts;
    if (files.empty()) return counts;
    Transaction transaction(database_);
    Statement lose_file(database_, "UPDATE file SET gone = 1 WHERE id = ?1 AND gone = 0 RETURNING id");
    Statement lose_settings(database_, "UPDATE setting SET gone = 1 WHERE file_id = ?1 AND gone = 0 RETURNING id");
    for (const FileId file : files) {
        if (!vanished_.contains(file.value)) continue;
        const Reset reset_file(lose_file);
        const Reset reset_settings(lose_settings);
        lose_file.bind(file.value);
        while (lose_file.step()) ++counts.files;
        lose_settings.bind(file.value);
        while (lose_settings.step()) ++counts.settings;
    }
    transaction.commit();
    any_gone_ = any_gone_ || counts.settings > 0;
    return counts;
}

void Intake::Writer::settle() {
    Transaction transaction(database_);
    // What was said elsewhere may be of a tune that has come only now.
    if (database_.number("SELECT EXISTS (SELECT 1 FROM saying WHERE is_from_elsewhere = 1)") != 0)
        for (const people::Subject subject : kSubjects) rebuild(database_, subject);
    settle_families(database_);
    transaction.commit();
}

void Intake::Writer::rest() {
    // A reader in the way keeps the journal: all is stored all the same, and the next import tries again.
    database_.exec_unless_busy("PRAGMA journal_mode = DELETE");
}

}  // namespace library
