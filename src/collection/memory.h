// A collection held in memory: for whoever has no file to keep one in, and for tests.
#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "collection/collection.h"
#include "collection/said_kinds.h"
#include "collection/sheet.h"
#include "people/kept.h"

namespace collection {

// Files, settings and the tunes these are by themselves are numbered as they come, from 1, as an import into a new
// library would number them. Nothing in it is ever gone. A copy is one of its own.
class Memory : public Collection {
public:
    void take(std::vector<StoredFile> files);  // best all at once: each call works all of it out anew
    // From now on, all that people said: of own tune ids of this collection.
    void keep(people::Kept kept);

    Answer select_tunes(const Selection& selection) const override;
    NotesAnswer select_notes(const Selection& selection) const override;
    std::vector<tune::TuneRecord> tunes_titled(std::string_view title) const override;
    std::vector<tune::TuneRecord> settings_titled(std::string_view title) const override;
    std::vector<tune::TitledTune> titled_tunes() const override;
    std::vector<Alias> aliases() const override;
    std::vector<tune::TuneRecord> tunes_by_id(std::span<const tune::TuneId> ids) const override;
    std::optional<tune::TuneRecord> setting_of_own(tune::TuneId own) const override;
    std::vector<tune::TuneRecord> settings_of(tune::TuneId id) const override;
    std::vector<std::string> first_titles(std::span<const tune::SettingId> settings) const override;
    std::vector<tune::TuneId> own_ids(std::span<const tune::SettingId> settings) const override;
    std::vector<SettingKind> setting_kinds() const override;
    std::vector<tune::SettingId> scraps() const override;
    void visit_outlines(const std::function<void(const StoredOutline&)>& visit) const override;
    std::optional<tune::Outline> outline_of(tune::SettingId setting) const override;
    std::optional<AbcText> abc_of(tune::SettingId setting) const override;
    std::vector<FoundOddity> oddities() const override;
    std::vector<FileDiagnostic> diagnostics() const override;
    Counts counts() const override;
    std::vector<TuneMark> marks() const override;
    std::vector<Verdict> verdicts() const override;
    std::optional<PlayerRecord> player_named(std::string_view name) const override;
    std::vector<PlayerRecord> players() const override;
    std::vector<PlayerClass> player_classes() const override;
    std::vector<PlayerHappening> history_of(tune::PlayerId player) const override;

private:
    struct Held {
        std::size_t file = 0;  // in files_
        StoredSetting setting;
        tune::TuneId head;  // of its family
    };

    void settle();  // families, kinds and the sheet, after anything has come
    void fill_sheet();
    tune::TuneId own_of(std::size_t place) const { return {static_cast<std::int64_t>(place) + 1}; }
    tune::SettingId id_of(std::size_t place) const { return {static_cast<std::int64_t>(place) + 1}; }
    const Held* held(std::int64_t id) const;                    // of a setting, or the own tune, of that number
    std::vector<std::size_t> members(tune::TuneId head) const;  // places, ascending
    tune::TuneId head_of(tune::TuneId tune) const;              // itself where it is unknown
    tune::TuneRecord record_at(std::size_t place) const;
    std::vector<tune::TuneRecord> records_at(const std::vector<std::size_t>& places) const;
    std::vector<std::size_t> places_titled(std::string_view title, bool one_a_tune) const;
    PlayerRecord record_of(people::PlayerNumber number, const people::KeptPlayer& player) const;
    FoundOddity found_at(std::size_t place) const;

    std::vector<StoredFile> files_;  // without their settings
    std::vector<Held> settings_;     // the setting of id n at n - 1
    people::Kept kept_;
    std::map<std::int64_t, TuneMark> marks_;                   // by head
    std::map<std::int64_t, std::vector<std::string>> tags_;    // by head, as shown
    std::map<std::int64_t, std::vector<std::size_t>> family_;  // places by head
    SaidKinds said_;
    Sheet sheet_;
};

}  // namespace collection
