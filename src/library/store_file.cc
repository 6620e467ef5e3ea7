// One file into the library, in one transaction. Tested by store_file_test.cc.
#include <xxhash.h>

#include <map>

#include "library/writer.h"
#include "tune/title.h"

namespace library {

namespace {

std::uint64_t text_hash_of(const std::string& header, const std::string& abc) {
    return XXH3_64bits_withSeed(abc.data(), abc.size(), header.empty() ? 0 : XXH3_64bits(header.data(), header.size()));
}

std::vector<Identity> identities_of(const std::vector<collection::StoredSetting>& settings) {
    std::vector<Identity> identities;
    identities.reserve(settings.size());
    for (const collection::StoredSetting& setting : settings)
        identities.push_back(
            {setting.number,
             setting.titles.empty() ? std::nullopt : std::optional(tune::fold_title(setting.titles.front())),
             setting.facts.melody_hash, setting.facts.note_count > 0, false});
    return identities;
}

std::vector<Identity> identities_of(const std::vector<StoredIdentity>& stored) {
    std::vector<Identity> identities;
    identities.reserve(stored.size());
    for (const StoredIdentity& setting : stored) identities.push_back(setting.identity);
    return identities;
}

}  // namespace

SettingCounts& SettingCounts::operator+=(const SettingCounts& other) noexcept {
    added += other.added;
    changed += other.changed;
    same += other.same;
    gone += other.gone;
    return *this;
}

// A file of the very same bytes that is no longer where it was has moved here.
std::optional<std::int64_t> Intake::Writer::moved_from(const collection::StoredFile& file) {
    if (file.settings.empty() || (!any_gone_ && vanished_.empty())) return std::nullopt;
    const Reset reset(find_content_);
    find_content_.bind(file.content_hash);
    while (find_content_.step()) {
        const std::int64_t id = find_content_.number(0);
        if (find_content_.number(1) != 0 || vanished_.contains(id)) return id;
    }
    return std::nullopt;
}

Intake::Writer::FileRow Intake::Writer::file_row(const collection::StoredFile& file) {
    std::optional<std::int64_t> id;
    {
        const Reset reset(find_file_);
        if (find_file_.bind(file.path).step()) id = find_file_.number(0);
    }
    if (!id) id = moved_from(file);
    if (id) {
        update_file_.bind(*id, file.path, file.shown, file.size, file.mtime_ns, file.imported_ns, file.content_hash)
            .run();
        return {*id, false};
    }
    insert_file_.bind(file.path, file.shown, file.size, file.mtime_ns, file.imported_ns, file.content_hash).run();
    return {database_.last_id(), true};
}

SettingCounts Intake::Writer::store_file(const collection::StoredFile& file) {
    Transaction transaction(database_);
    SettingCounts counts;
    const FileRow row = file_row(file);
    const std::vector<Identity> incoming = identities_of(file.settings);
    std::vector<StoredIdentity> stored = row.is_new ? std::vector<StoredIdentity>() : settings_in(row.id);
    const std::size_t stored_here = stored.size();
    auto matches = match_settings(identities_of(stored), incoming);
    match_elsewhere(incoming, stored, matches);

    const std::optional<std::int64_t> header = header_id(file.header);
    std::map<std::string, std::int64_t> met;
    std::vector<bool> is_found(stored.size(), false);
    for (std::size_t i = 0; i < incoming.size(); ++i) {
        const collection::StoredSetting& setting = file.settings[i];
        const Place place{row.id, incoming[i].number ? met[*incoming[i].number]++ : met[""]++,
                          text_hash_of(file.header, setting.abc), header};
        if (!matches[i]) {
            insert_setting(setting, incoming[i], place);
            ++counts.added;
            continue;
        }
        const StoredIdentity& old = stored[*matches[i]];
        is_found[*matches[i]] = true;
        const bool is_same = old.text_hash == place.text_hash;
        ++(is_same ? counts.same : counts.changed);
        if (!is_same || old.analysis_version != tune::kAnalysisVersion) {
            update_setting(old.id, setting, incoming[i], place);
        } else if (old.identity.gone || old.file_id != row.id || old.line != setting.line ||
                   old.occurrence != place.occurrence) {
            place_setting(old.id, setting, place);
        }
        // The file it came from is no longer what its row says: should it come back, it must be read.
        if (old.file_id != row.id) forget_content_.bind(old.file_id).run();
    }
    for (std::size_t i = 0; i < stored_here; ++i) {
        if (is_found[i] || stored[i].identity.gone) continue;
        lose_setting_.bind(stored[i].id).run();
        ++counts.gone;
    }
    store_diagnostics(row.id, file, row.is_new);
    transaction.commit();
    vanished_.erase(row.id);
    any_gone_ = any_gone_ || counts.gone > 0;
    return counts;
}

}  // namespace library
