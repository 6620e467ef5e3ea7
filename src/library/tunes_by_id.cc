// Tested by tunes_by_id_test.cc.
#include "library/database.h"
#include "library/library.h"
#include "library/records.h"
#include "library/statement.h"

namespace library {

namespace {

// Of the family the tune belongs to. NULL for an unknown tune.
constexpr const char* kFirstSetting =
    "WITH asked (id) AS (SELECT coalesce(family_id, id) FROM tune WHERE id = ?1)"
    " SELECT coalesce((SELECT min(s.id) FROM setting s, asked WHERE s.tune_id = asked.id AND s.gone = 0),"
    " (SELECT min(s.id) FROM setting s, asked WHERE s.tune_id = asked.id AND s.gone = 1))";

}  // namespace

std::vector<tune::TuneRecord> Library::tunes_by_id(std::span<const tune::TuneId> ids) const {
    std::vector<std::int64_t> settings;
    settings.reserve(ids.size());
    Statement row(*database_, kFirstSetting);
    for (const tune::TuneId id : ids) {
        const Reset reset(row);
        if (row.bind(id.value).step() && !row.is_null(0)) settings.push_back(row.number(0));
    }
    return records_of(*database_, settings);
}

std::vector<std::string> Library::first_titles(std::span<const tune::SettingId> settings) const {
    std::vector<std::string> titles;
    titles.reserve(settings.size());
    Statement row(*database_, "SELECT text FROM title WHERE place = 0 AND setting_id = ?1");
    for (const tune::SettingId setting : settings) {
        const Reset reset(row);
        titles.emplace_back(row.bind(setting.value).step() ? row.text(0) : std::string_view());
    }
    return titles;
}

std::vector<tune::TuneId> Library::own_ids(std::span<const tune::SettingId> settings) const {
    std::vector<tune::TuneId> ids;
    ids.reserve(settings.size());
    Statement row(*database_, "SELECT own_tune_id FROM setting WHERE id = ?1");
    for (const tune::SettingId setting : settings) {
        const Reset reset(row);
        ids.push_back({row.bind(setting.value).step() ? row.number(0) : 0});
    }
    return ids;
}

std::vector<tune::TuneRecord> Library::settings_of(tune::TuneId id) const {
    std::vector<std::int64_t> settings;
    Statement rows(*database_,
                   "SELECT id FROM setting WHERE tune_id = (SELECT coalesce(family_id, id) FROM tune WHERE id = ?1)"
                   " AND gone = 0 ORDER BY id");
    rows.bind(id.value);
    while (rows.step()) settings.push_back(rows.number(0));
    return records_of(*database_, settings);
}

std::optional<tune::TuneRecord> Library::setting_of_own(tune::TuneId own) const {
    Statement row(*database_, "SELECT id FROM setting WHERE own_tune_id = ?1 ORDER BY gone, id");
    if (!row.bind(own.value).step()) return std::nullopt;
    std::vector<tune::TuneRecord> found = records_of(*database_, {row.number(0)});
    return std::move(found.front());
}

}  // namespace library
