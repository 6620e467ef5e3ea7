// Tested by tune_test.cc.
#include "answers/said_key.h"

#include <algorithm>

namespace answers {

tune::TuneFacts with_said_key(tune::TuneFacts facts, const tune::TuneRecord& record) {
    if (!record.key || record.key_basis != tune::Basis::said || !facts.key) return facts;
    std::vector<music::Key>& candidates = facts.key->candidates;
    std::erase(candidates, *record.key);
    candidates.insert(candidates.begin(), *record.key);
    facts.key->stated.reset();
    facts.key->decided = true;
    return facts;
}

}  // namespace answers
