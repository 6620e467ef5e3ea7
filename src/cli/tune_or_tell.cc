#include "cli/tune_or_tell.h"

#include "cli/refusal_words.h"

namespace cli {

std::optional<tune::TuneRecord> tune_or_tell(const collection::Collection& library, const std::string& which) {
    try {
        return answers::tune_named(library, which);
    } catch (const answers::Refused& refused) {
        if (refused.refusal().reason != answers::Reason::unknown_tune) throw;
        tell(refused.refusal());
        return std::nullopt;
    }
}

}  // namespace cli
