// Whether K: and the notes agree.
#pragma once

#include <optional>

#include "tune/facts.h"
#include "tune/oddity.h"
#include "tune/setting.h"

namespace analysis {

// Nothing where they agree, where K: names no tonic and mode, where the key changes on the way, and for fragments. A
// warning where notes that the label has not sound often, else a remark: the tonic alone is a matter of opinion now and
// then.
std::optional<tune::Oddity> find_key_label_oddity(const tune::Setting& setting, const tune::TuneFacts& facts);

}  // namespace analysis
