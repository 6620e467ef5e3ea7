#include "report/words/json.h"

#include "report/words/words.h"

namespace report {

Json row_json(const tune::TuneRecord& record, const std::optional<music::NoteSet>& have) {
    const int fifths = tune::spelling_fifths(record);
    const bool has_notes = !record.needed.empty();
    Json row;
    row["id"] = record.id.value;
    row["own_id"] = record.own.value;
    row["setting"] = record.setting.value;
    row["setting_count"] = record.settings;
    row["title"] = record.titles.empty() ? Json(nullptr) : Json(record.titles.front());
    row["titles"] = record.titles;
    row["file"] = record.file;
    row["number"] = or_null(record.number);
    row["line"] = record.line;
    row["rhythm"] = record.rhythm ? Json(record.rhythm->value) : Json(nullptr);
    row["rhythm_basis"] = record.rhythm ? Json(tune::basis_token(record.rhythm->basis)) : Json(nullptr);
    row["rhythm_stated"] = or_null(record.rhythm_stated);
    row["rhythm_possible"] = record.rhythm_possible;
    row["meter"] = record.meter;
    row["key_stated"] = record.key_stated;
    row["key_in_force"] = record.key_in_force.value_or(record.key_stated);
    row["tonic"] = record.key ? Json(music::to_string(record.key->tonic)) : Json(nullptr);
    row["mode"] = record.key ? Json(music::mode_token(record.key->mode)) : Json(nullptr);
    row["key_basis"] = record.key ? Json(tune::basis_token(record.key_basis)) : Json(nullptr);
    row["key_candidates"] = Json::array();
    for (const music::Key& key : record.key_candidates) row["key_candidates"].push_back(music::to_string(key));
    row["key_decided"] = record.key_decided;
    row["part_keys"] = Json::array();
    for (const music::Key& key : record.part_keys) row["part_keys"].push_back(music::to_string(key));
    row["pitches"] = record.needed.midi_numbers();
    row["ornament_pitches"] = record.ornaments.midi_numbers();
    row["notes"] = note_names(record.needed, fifths);
    row["lowest"] = has_notes ? Json(note_or_dash(record.needed.lowest(), fifths)) : Json(nullptr);
    row["highest"] = has_notes ? Json(note_or_dash(record.needed.highest(), fifths)) : Json(nullptr);
    row["semitones"] = has_notes ? Json(record.needed.highest() - record.needed.lowest()) : Json(nullptr);
    row["note_count"] = record.note_count;
    row["first_note"] = record.first_note ? Json(note_or_dash(record.first_note, fifths)) : Json(nullptr);
    row["last_note"] = record.last_note ? Json(note_or_dash(record.last_note, fifths)) : Json(nullptr);
    row["bars"] = record.bars;
    row["different_bars"] = record.different_bars;
    row["form"] = record.form.empty() ? Json(nullptr) : Json(record.form);
    row["form_basis"] = record.form.empty() ? Json(nullptr) : Json("computed");
    row["largest_leap"] = or_null(record.largest_leap);
    row["scrap"] = record.scrap ? Json(tune::scrap_token(*record.scrap)) : Json(nullptr);
    row["errors"] = record.errors;
    row["tags"] = record.tags;
    row["count"] = or_null(record.count);
    if (have) row["missing"] = note_names(record.needed.without(*have), fifths);
    return row;
}

Json rhythm_basis_json(const std::string& rhythm, tune::Basis basis) {
    return rhythm.empty() ? Json(nullptr) : Json(tune::basis_token(basis));
}

std::string compact(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string finish(const Json& json) { return compact(json) + "\n"; }

}  // namespace report
