// A setting that is in no library yet, as a record without ids.
#pragma once

#include "tune/facts.h"
#include "tune/record.h"
#include "tune/setting.h"

namespace report {

tune::TuneRecord record_of(const tune::Setting& setting, const tune::TuneFacts& facts, const std::string& file);

}  // namespace report
