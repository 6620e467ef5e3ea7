// Tested by store_file_test.cc.
#include "library/setting_columns.h"

#include <cstdlib>
#include <string>
#include <vector>

namespace library {

namespace {

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ",") + word;
    return text;
}

std::string keys_text(const std::vector<music::Key>& keys) {
    std::vector<std::string> words;
    for (const music::Key& key : keys) words.push_back(music::to_string(key));
    return joined(words);
}

}  // namespace

void bind_setting(Statement& statement, const collection::StoredSetting& setting, const Identity& identity,
                  std::int64_t file_id, std::int64_t needed_id, std::int64_t ornaments_id, std::int64_t occurrence,
                  std::uint64_t text_hash, std::int64_t own_id) {
    const tune::TuneFacts& facts = setting.facts;
    const music::Key* key = facts.key ? &facts.key->headline() : nullptr;
    const auto tonic = key != nullptr ? std::optional(music::to_string(key->tonic)) : std::nullopt;
    const auto mode = key != nullptr ? std::optional(music::mode_token(key->mode)) : std::nullopt;
    const std::string candidates = facts.key ? keys_text(facts.key->candidates) : "";
    const std::string part_keys = keys_text(facts.differing_part_keys);
    const std::string possible = joined(facts.rhythm_possible);
    const auto rhythm = facts.rhythm ? std::optional<std::string_view>(facts.rhythm->value) : std::nullopt;
    const auto rhythm_basis = facts.rhythm ? std::optional(tune::basis_token(facts.rhythm->basis)) : std::nullopt;
    const std::string meter = music::to_string(facts.meter.value);
    const auto scrap = facts.scrap ? std::optional(tune::scrap_token(*facts.scrap)) : std::nullopt;
    const auto& leap = facts.leaps.largest;
    const auto largest_leap = leap ? std::optional(std::abs(leap->to - leap->from)) : std::nullopt;
    statement
        .bind(own_id, file_id, needed_id, ornaments_id, facts.first_note, facts.last_note, tonic, mode,
              facts.key && facts.key->decided, candidates, rhythm, rhythm_basis, meter, setting.line, identity.number,
              occurrence, identity.folded_title, setting.rhythm_stated, setting.key_stated, facts.note_count,
              facts.bars, facts.different_bars, static_cast<std::int64_t>(setting.errors), facts.melody_hash, text_hash,
              tune::kAnalysisVersion, facts.melody_class, possible, setting.form, part_keys, largest_leap,
              setting.key_in_force, scrap)
        .run();
}

const char* const kInsertSetting =
    "INSERT INTO setting (tune_id, file_id, needed_id, ornaments_id, first_note, last_note, tonic, mode, key_decided,"
    " key_candidates, rhythm, rhythm_basis, meter, line, number, occurrence, folded_title, rhythm_stated, key_stated, "
    "note_count,"
    " bars, different_bars, errors, melody_hash, text_hash, analysis_version, melody_class, rhythm_possible, form,"
    " part_keys, largest_leap, key_in_force, scrap, own_tune_id)"
    " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20, ?21, ?22, "
    "?23, ?24, ?25, ?26, ?27, ?28, ?29, ?30, ?31, ?32, ?33, ?1)";

const char* const kUpdateSetting =
    "UPDATE setting SET gone = 0, file_id = ?2, needed_id = ?3, ornaments_id = ?4, first_note = ?5, last_note = ?6, "
    "tonic = ?7,"
    " mode = ?8, key_decided = ?9, key_candidates = ?10, rhythm = ?11, rhythm_basis = ?12, meter = ?13, line = ?14, "
    "number = ?15,"
    " occurrence = ?16, folded_title = ?17, rhythm_stated = ?18, key_stated = ?19, note_count = ?20, bars = ?21,"
    " different_bars = ?22, errors = ?23, melody_hash = ?24, text_hash = ?25, analysis_version = ?26,"
    " melody_class = ?27, rhythm_possible = ?28, form = ?29, part_keys = ?30, largest_leap = ?31, key_in_force = ?32, "
    "scrap = ?33 WHERE id = ?1";

}  // namespace library
