#include "tune/record.h"

namespace tune {

int spelling_fifths(const TuneRecord& record) {
    const auto stated = music::parse_stated_key(record.key_in_force.value_or(record.key_stated));
    if (!stated) return 0;
    if (stated->kind == music::StatedKey::Kind::highland_pipes) return 2;
    if (stated->kind != music::StatedKey::Kind::tonic_and_mode) return 0;
    const int fifths = stated->key.signature_fifths();
    return fifths < -7 ? -7 : fifths > 7 ? 7 : fifths;
}

}  // namespace tune
