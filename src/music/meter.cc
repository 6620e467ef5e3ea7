#include "music/meter.h"

namespace music {

namespace {

Duration beat_length(const Meter& meter) {
    if (meter.is_compound()) return {3, 8};
    if (meter.beats == 3 && meter.unit >= 4) return meter.bar_length();
    if (meter.bar_length() == Duration(1, 1)) return {1, 2};
    return {1, meter.unit};
}

}  // namespace

std::string to_string(const Meter& meter) {
    if (meter.is_free()) return "none";
    return std::to_string(meter.beats) + "/" + std::to_string(meter.unit);
}

bool is_strong(const Meter& meter, const Duration& at) {
    if (at.numerator() == 0) return true;
    if (meter.is_free()) return false;
    const Duration beat = beat_length(meter);
    // at / beat is whole exactly when the cross products divide.
    return (at.numerator() * beat.denominator()) % (at.denominator() * beat.numerator()) == 0;
}

}  // namespace music
