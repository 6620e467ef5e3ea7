#include "report/record_of.h"

#include <cstdlib>

namespace report {

tune::TuneRecord record_of(const tune::Setting& setting, const tune::TuneFacts& facts, const std::string& file) {
    tune::TuneRecord record;
    record.titles = setting.titles;
    record.file = file;
    record.number = setting.number;
    record.line = setting.line;
    record.rhythm = facts.rhythm;
    record.rhythm_stated = setting.rhythm;
    record.rhythm_possible = facts.rhythm_possible;
    record.meter = music::to_string(facts.meter.value);
    record.key_stated = music::to_string(setting.key);
    if (setting.key_in_force != setting.key) record.key_in_force = music::to_string(setting.key_in_force);
    if (facts.key) {
        record.key = facts.key->headline();
        record.key_basis = facts.key->basis();
        record.key_candidates = facts.key->candidates;
        record.key_decided = facts.key->decided;
    }
    record.form = tune::form_of(facts.structure);
    if (facts.leaps.largest) record.largest_leap = std::abs(facts.leaps.largest->to - facts.leaps.largest->from);
    record.part_keys = facts.differing_part_keys;
    record.needed = facts.needed;
    record.ornaments = facts.ornaments;
    record.note_count = facts.note_count;
    record.first_note = facts.first_note;
    record.last_note = facts.last_note;
    record.bars = facts.bars;
    record.different_bars = facts.different_bars;
    record.scrap = facts.scrap;
    record.errors = setting.errors;
    return record;
}

}  // namespace report
