// A collection in one SQLite file, opened to read and never changed by asking.
#pragma once

#include <filesystem>
#include <memory>

#include "collection/collection.h"
#include "collection/stored_setting.h"
#include "library/players.h"

namespace library {

class Database;

// Every function throws base::Failure when the file cannot be read or is damaged. For one thread.
class Library : public collection::Collection {
public:
    // Throws Failure when there is no such file, when it is not a library, when it was written by a newer gamut, or by
    // an older one whose tables differ (an import brings it up to date).
    static Library open_existing(const std::filesystem::path& file);

    Library(Library&&) noexcept;
    Library& operator=(Library&&) noexcept;
    ~Library() override;

    // tunes_that.cc
    collection::Answer select_tunes(const collection::Selection& selection) const override;
    collection::NotesAnswer select_notes(const collection::Selection& selection) const override;

    // tunes_titled.cc, titled_tunes.cc
    std::vector<tune::TuneRecord> tunes_titled(std::string_view title) const override;
    std::vector<tune::TuneRecord> settings_titled(std::string_view title) const override;
    std::vector<tune::TitledTune> titled_tunes() const override;
    std::vector<collection::Alias> aliases() const override;

    // tunes_by_id.cc
    std::vector<tune::TuneRecord> tunes_by_id(std::span<const tune::TuneId> ids) const override;
    std::optional<tune::TuneRecord> setting_of_own(tune::TuneId own) const override;
    std::vector<tune::TuneRecord> settings_of(tune::TuneId id) const override;
    std::vector<std::string> first_titles(std::span<const tune::SettingId> settings) const override;
    std::vector<tune::TuneId> own_ids(std::span<const tune::SettingId> settings) const override;

    // setting_kinds.cc
    std::vector<collection::SettingKind> setting_kinds() const override;
    std::vector<tune::SettingId> scraps() const override;

    // outlines.cc, contents.cc, oddities.cc
    void visit_outlines(const std::function<void(const collection::StoredOutline&)>& visit) const override;
    std::optional<tune::Outline> outline_of(tune::SettingId setting) const override;
    std::optional<collection::AbcText> abc_of(tune::SettingId setting) const override;
    std::vector<collection::FoundOddity> oddities() const override;
    std::vector<collection::FileDiagnostic> diagnostics() const override;
    collection::Counts counts() const override;

    // tunes_marked.cc: no tune is looked at for it; its cost goes with what was marked.
    std::vector<collection::TuneMark> marks() const override;
    // verdicts.cc, players_read.cc
    std::vector<collection::Verdict> verdicts() const override;
    std::optional<collection::PlayerRecord> player_named(std::string_view name) const override;
    std::vector<collection::PlayerRecord> players() const override;
    std::vector<collection::PlayerClass> player_classes() const override;
    std::vector<collection::PlayerHappening> history_of(tune::PlayerId player) const override;

private:
    explicit Library(std::unique_ptr<Database> database);

    std::unique_ptr<Database> database_;
};

}  // namespace library
