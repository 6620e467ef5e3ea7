#include "analysis/part_keys.h"

#include <algorithm>

#include "analysis/key_finder.h"
#include "analysis/structure.h"
#include "analysis/under_key.h"

namespace analysis {

std::vector<std::optional<tune::KeyFinding>> find_part_keys(const music::Melody& melody,
                                                            const tune::Structure& structure,
                                                            const std::optional<tune::KeyFinding>& key) {
    std::vector<std::optional<tune::KeyFinding>> keys;
    if (structure.parts.size() == 1) return {key};
    for (const tune::Part& part : structure.parts) {
        // Parts of one label are the same music.
        const auto like = std::find_if(structure.parts.begin(), structure.parts.end(),
                                       [&](const tune::Part& other) { return other.label == part.label; });
        const auto first = static_cast<std::size_t>(like - structure.parts.begin());
        keys.push_back(first < keys.size() ? keys[first] : find_key(melody_of(melody, part)));
    }
    return keys;
}

std::vector<music::Key> find_keys_in_turn(const music::Melody& melody) {
    const std::vector<music::KeyChange> turns = keys_in_turn(melody);
    std::vector<music::Key> keys;
    if (turns.size() < 2) return keys;
    for (const music::KeyChange& turn : turns)
        if (const auto finding = find_key(under_key(melody, turn), turn.key)) keys.push_back(finding->headline());
    return keys;
}

std::vector<music::Key> differing_part_keys(const std::vector<std::optional<tune::KeyFinding>>& part_keys,
                                            const std::optional<tune::KeyFinding>& whole) {
    std::vector<music::Key> keys;
    if (!whole) return keys;
    const music::Key& home = whole->headline();
    bool differ = false;
    for (const auto& finding : part_keys) {
        if (!finding) continue;
        const music::Key& key = finding->candidates.front();
        keys.push_back(key);
        const auto third = [](const music::Key& of) { return music::mode_semitones(of.mode)[2]; };
        const bool disagrees = home.tonic.pitch_class() != key.tonic.pitch_class() || third(home) != third(key);
        differ = differ || (finding->decided && disagrees);
    }
    if (!differ) keys.clear();
    return keys;
}

}  // namespace analysis
