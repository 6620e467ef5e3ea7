#include "syllabus/cost.h"

namespace syllabus {

std::string_view criterion_token(Criterion criterion) noexcept {
    constexpr std::array<std::string_view, kCriteria> kTokens{
        "wishes-missed", "wishes-late", "empty-places",     "left-behind", "tunes-lacking",
        "rhythm-runs",   "tunes-late",  "notes-not-taught", "notes-alone", "out-of-turn",
        "not-asked-for", "hardness",    "lateness"};
    return kTokens[static_cast<std::size_t>(criterion)];
}

}  // namespace syllabus
