// Facts as a record tells them.
#pragma once

#include "tune/facts.h"
#include "tune/record.h"

namespace tune {

// All of a record that was found in the music. Its form is structure's own to tell: an import keeps that apart.
void put_facts(TuneRecord& record, const TuneFacts& facts);

}  // namespace tune
