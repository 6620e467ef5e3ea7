#include "tune/record.h"

#include "tune/title.h"

namespace tune {

std::optional<Finding<std::string>> danced_rhythm(const TuneRecord& record) {
    const bool is_contradicted =
        record.rhythm && record.rhythm->basis == Basis::stated && !record.rhythm_possible.empty();
    if (!is_contradicted) return record.rhythm;
    return Finding<std::string>{record.rhythm_possible.front(), Basis::computed};
}

int spelling_fifths(const TuneRecord& record) {
    const auto stated = music::parse_stated_key(record.key_in_force.value_or(record.key_stated));
    if (!stated) return 0;
    if (stated->kind == music::StatedKey::Kind::highland_pipes) return 2;
    if (stated->kind != music::StatedKey::Kind::tonic_and_mode) return 0;
    // A minor tune raises its seventh, sixth and fourth: C# in G minor, A# in E minor.
    const int fifths = stated->key.signature_fifths() + (stated->key.mode == music::Mode::minor ? 1 : 0);
    return fifths < -7 ? -7 : fifths > 7 ? 7 : fifths;
}

std::string title_of(const TuneRecord& record) {
    return record.titles.empty() ? std::string(kNoTitle) : record.titles.front();
}

}  // namespace tune
