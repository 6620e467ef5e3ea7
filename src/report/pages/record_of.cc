#include "report/pages/record_of.h"

#include "tune/record_facts.h"

namespace report {

tune::TuneRecord record_of(const tune::Setting& setting, const tune::TuneFacts& facts, const std::string& file) {
    tune::TuneRecord record;
    tune::put_facts(record, facts);
    record.titles = setting.titles;
    record.file = file;
    record.number = setting.number;
    record.line = setting.line;
    record.rhythm_stated = setting.rhythm;
    record.key_stated = music::to_string(setting.key);
    if (setting.key_in_force != setting.key) record.key_in_force = music::to_string(setting.key_in_force);
    record.form = tune::form_of(facts.structure);
    record.errors = setting.errors;
    return record;
}

}  // namespace report
