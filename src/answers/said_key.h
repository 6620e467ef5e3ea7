// The key a person said, for what reads facts made anew from a tune's own ABC.
#pragma once

#include "tune/facts.h"
#include "tune/record.h"

namespace answers {

// In front of the candidates where a person said one; else as the facts are.
tune::TuneFacts with_said_key(tune::TuneFacts facts, const tune::TuneRecord& record);

}  // namespace answers
