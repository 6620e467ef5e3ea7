#include "syllabus/hardness.h"

namespace syllabus {

int hardness_of(const music::NoteSet& needed, std::optional<int> largest_leap, int different_bars) noexcept {
    int points = 0;
    if (!needed.empty() && needed.highest() - needed.lowest() > kOctave) ++points;
    if (largest_leap.value_or(0) >= kSixth) ++points;
    if (different_bars > kManyBars) ++points;
    if (different_bars > kVeryManyBars) ++points;
    return points;
}

}  // namespace syllabus
