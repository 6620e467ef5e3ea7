#include "support/moved_apart.h"

#include <cstddef>

namespace support {

namespace {

std::string difference_of(const music::Melody& before, const music::Melody& after, int semitones) {
    if (before.sounds.size() != after.sounds.size()) return "the number of sounds";
    if (before.heads.size() != after.heads.size()) return "the number of heads";
    if (before.bars.size() != after.bars.size()) return "the number of bars";
    for (std::size_t at = 0; at < before.heads.size(); ++at) {
        if (after.heads[at].midi != before.heads[at].midi + semitones) return "the pitch of head " + std::to_string(at);
        if (after.heads[at].is_tied != before.heads[at].is_tied) return "the tie of head " + std::to_string(at);
    }
    for (std::size_t at = 0; at < before.sounds.size(); ++at) {
        const music::Sound &one = before.sounds[at], &other = after.sounds[at];
        if (one.length != other.length || one.at != other.at || one.kind != other.kind || one.bar != other.bar ||
            one.head_count != other.head_count)
            return "sound " + std::to_string(at);
    }
    for (std::size_t at = 0; at < before.bars.size(); ++at) {
        const music::Bar &one = before.bars[at], &other = after.bars[at];
        if (one.length != other.length || one.meter != other.meter || one.repeat_opens != other.repeat_opens ||
            one.repeat_closes != other.repeat_closes || one.ending != other.ending ||
            one.thick_after != other.thick_after)
            return "bar " + std::to_string(at);
    }
    return "";
}

}  // namespace

std::string difference(const tune::Setting& before, const tune::Setting& after, int semitones) {
    if (before.titles != after.titles || before.texts != after.texts || before.number != after.number) return "words";
    if (before.meter != after.meter || before.unit != after.unit || before.rhythm != after.rhythm) return "meter, unit";
    if (before.others.size() != after.others.size()) return "the number of voices";
    for (std::size_t at = 0; at < before.others.size(); ++at) {
        const std::string inner = difference_of(before.others[at].melody, after.others[at].melody, semitones);
        if (!inner.empty()) return inner + " of voice " + before.others[at].id;
    }
    return difference_of(before.melody, after.melody, semitones);
}

}  // namespace support
