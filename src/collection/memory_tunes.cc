// Tunes by title and id, their melodies, texts and what is odd. Tested by both_test.cc.
#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

#include "collection/memory.h"
#include "collection/sort_order.h"
#include "tune/title.h"

namespace collection {

std::vector<std::size_t> Memory::places_titled(std::string_view title, bool one_a_tune) const {
    const std::string folded = tune::fold_title(title);
    if (folded.empty()) return {};
    std::vector<std::size_t> exactly, partly;
    std::set<std::int64_t> exact_tunes, part_tunes;
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        bool is_exact = false, is_part = false;
        for (const std::string& its : settings_[place].setting.titles) {
            const std::string known = tune::fold_title(its);
            is_exact = is_exact || known == folded;
            is_part = is_part || (known != folded && known.find(folded) != std::string::npos);
        }
        const std::int64_t head = settings_[place].head.value;
        if (is_exact && (!one_a_tune || exact_tunes.insert(head).second)) exactly.push_back(place);
        if (is_part && (!one_a_tune || part_tunes.insert(head).second)) partly.push_back(place);
    }
    return exactly.empty() ? partly : exactly;
}

std::vector<tune::TuneRecord> Memory::tunes_titled(std::string_view title) const {
    const std::vector<std::size_t> places = places_titled(title, true);
    std::vector<tune::TuneRecord> records;
    for (const std::size_t row : in_order(sheet_, Sort::title, std::nullopt)) {
        const auto place = static_cast<std::size_t>(sheet_.settings[row].value - 1);
        if (std::find(places.begin(), places.end(), place) != places.end()) records.push_back(record_at(place));
    }
    return records;
}

std::vector<tune::TuneRecord> Memory::settings_titled(std::string_view title) const {
    return records_at(places_titled(title, false));
}

std::vector<tune::TitledTune> Memory::titled_tunes() const {
    std::vector<tune::TitledTune> tunes;
    for (const auto& [head, places] : family_)
        for (const std::size_t place : places)
            for (const std::string& title : settings_[place].setting.titles) {
                if (tunes.empty() || tunes.back().id.value != head) tunes.push_back({{head}, title, {}});
                tunes.back().folded.push_back(tune::fold_title(title));
            }
    for (const Alias& alias : aliases())
        for (tune::TitledTune& tune : tunes)
            if (tune.id == alias.tune) tune.aliases.push_back(alias.folded);
    return tunes;
}

std::vector<tune::TuneRecord> Memory::tunes_by_id(std::span<const tune::TuneId> ids) const {
    std::vector<tune::TuneRecord> records;
    for (const tune::TuneId id : ids)
        if (held(id.value) != nullptr) records.push_back(record_at(members(head_of(id)).front()));
    return records;
}

std::optional<tune::TuneRecord> Memory::setting_of_own(tune::TuneId own) const {
    if (held(own.value) == nullptr) return std::nullopt;
    return record_at(static_cast<std::size_t>(own.value - 1));
}

std::vector<tune::TuneRecord> Memory::settings_of(tune::TuneId id) const { return records_at(members(head_of(id))); }

std::vector<std::string> Memory::first_titles(std::span<const tune::SettingId> settings) const {
    std::vector<std::string> titles;
    for (const tune::SettingId id : settings) {
        const Held* its = held(id.value);
        titles.push_back(its == nullptr || its->setting.titles.empty() ? "" : its->setting.titles.front());
    }
    return titles;
}

std::vector<tune::TuneId> Memory::own_ids(std::span<const tune::SettingId> settings) const {
    std::vector<tune::TuneId> ids;
    for (const tune::SettingId id : settings) ids.push_back({held(id.value) != nullptr ? id.value : 0});
    return ids;
}

std::vector<SettingKind> Memory::setting_kinds() const {
    std::vector<SettingKind> kinds;
    for (std::size_t place = 0; place < settings_.size(); ++place) {
        const tune::TuneRecord record = record_at(place);
        kinds.push_back({record.setting, record.rhythm ? record.rhythm->value : "",
                         record.key ? music::to_string(*record.key) : ""});
    }
    return kinds;
}

std::vector<tune::SettingId> Memory::scraps() const {
    std::vector<tune::SettingId> scraps;
    for (std::size_t place = 0; place < settings_.size(); ++place)
        if (settings_[place].setting.facts.scrap) scraps.push_back(id_of(place));
    return scraps;
}

void Memory::visit_outlines(const std::function<void(const StoredOutline&)>& visit) const {
    for (std::size_t place = 0; place < settings_.size(); ++place)
        visit({id_of(place), settings_[place].head, own_of(place), settings_[place].setting.outline});
}

std::optional<tune::Outline> Memory::outline_of(tune::SettingId setting) const {
    const Held* its = held(setting.value);
    return its == nullptr ? std::nullopt : tune::decode_outline(its->setting.outline);
}

std::optional<AbcText> Memory::abc_of(tune::SettingId setting) const {
    const Held* its = held(setting.value);
    if (its == nullptr) return std::nullopt;
    const StoredFile& file = files_[its->file];
    // An empty line ends a file header.
    return AbcText{(file.header.empty() ? "" : file.header + "\n\n") + its->setting.abc, file.shown, its->setting.line,
                   false};
}

FoundOddity Memory::found_at(std::size_t place) const {
    FoundOddity found;
    found.tune = settings_[place].head;
    found.setting = id_of(place);
    const auto& titles = settings_[place].setting.titles;
    if (!titles.empty()) found.title = titles.front();
    return found;
}

std::vector<FoundOddity> Memory::oddities() const {
    struct Placed {
        const StoredFile* file;
        FoundOddity found;
    };
    std::vector<Placed> placed;
    for (std::size_t place = 0; place < settings_.size(); ++place)
        for (const StoredOddity& oddity : settings_[place].setting.oddities) {
            placed.push_back({&files_[settings_[place].file], found_at(place)});
            placed.back().found.oddity = oddity;
        }
    for (std::size_t at = 0; at < files_.size(); ++at)
        for (const StoredDiagnostic& told : files_[at].diagnostics) {
            // It belongs to the last setting that begins at or before its line.
            std::optional<std::size_t> of;
            for (std::size_t place = 0; place < settings_.size(); ++place)
                if (settings_[place].file == at && settings_[place].setting.line <= told.line &&
                    (!of || settings_[place].setting.line > settings_[*of].setting.line))
                    of = place;
            placed.push_back({&files_[at], of ? found_at(*of) : FoundOddity{}});
            const tune::OddityKind kind = tune::kind_of_code(told.code);
            placed.back().found.oddity = {told.line,     told.column,  kind,
                                          told.severity, told.message, std::string(tune::oddity_advice(kind))};
        }
    std::erase_if(placed, [&](const Placed& one) { return said_.settles(one.found); });
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        const auto key = [](const Placed& one) {
            return std::tie(one.file->shown, one.file->path, one.found.oddity.line, one.found.oddity.column);
        };
        return key(a) < key(b);
    });
    std::vector<FoundOddity> found;
    for (Placed& one : placed) {
        one.found.file = one.file->shown;
        found.push_back(std::move(one.found));
    }
    return found;
}

std::vector<FileDiagnostic> Memory::diagnostics() const {
    struct Placed {
        const StoredFile* file;
        const StoredDiagnostic* told;
    };
    std::vector<Placed> placed;
    for (const StoredFile& file : files_)
        for (const StoredDiagnostic& told : file.diagnostics) placed.push_back({&file, &told});
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        const auto key = [](const Placed& one) {
            return std::tie(one.file->shown, one.file->path, one.told->line, one.told->column);
        };
        return key(a) < key(b);
    });
    std::vector<FileDiagnostic> found;
    for (const Placed& one : placed) found.push_back({one.file->shown, *one.told});
    return found;
}

Counts Memory::counts() const {
    Counts counts;
    counts.files = static_cast<std::int64_t>(files_.size());
    counts.tunes = static_cast<std::int64_t>(family_.size());
    counts.settings = static_cast<std::int64_t>(settings_.size());
    return counts;
}

}  // namespace collection
