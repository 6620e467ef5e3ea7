// An inverted index from keys to the tunes that have them, as two sorted arrays; memory goes with the number of bars.
// Tested by kin_search_test.cc.
#include "analysis/kin_search.h"

#include <xxhash.h>

#include <algorithm>
#include <unordered_map>

#include "analysis/melody_class.h"

namespace analysis {

namespace {

// Of those that share a single key, which chance alone brings about in a large collection, no more are compared than
// fill up to this number. Source: house choice.
constexpr std::size_t kComparedAnyway = 8;

std::uint64_t slot_of(const ContourBar& bar, std::size_t slot) {
    return bar.halves[slot / (kSlots / 2)] >> (4 * (slot % (kSlots / 2))) & 15;
}

// The same in every key: semitones above the first.
template <std::size_t kLength>
std::uint32_t key_of(std::array<std::uint8_t, kLength> pitch_classes, std::uint8_t kind) {
    const std::uint8_t first = pitch_classes[0];
    for (std::uint8_t& pitch_class : pitch_classes)
        pitch_class = static_cast<std::uint8_t>(pitch_class > 11 ? 15 : (pitch_class + 12 - first) % 12);
    return static_cast<std::uint32_t>(XXH3_64bits_withSeed(pitch_classes.data(), kLength, kind));
}

// Of each bar, and of each two bars by their quarters. Sorted, without repeats.
std::vector<std::uint32_t> keys_of(const Contour& contour) {
    constexpr std::size_t kQuarters = 4;
    std::vector<std::uint32_t> keys;
    for (std::size_t bar = 0; bar < contour.bars.size(); ++bar) {
        std::array<std::uint8_t, kSlots> whole{};
        for (std::size_t slot = 0; slot < kSlots; ++slot)
            whole[slot] = static_cast<std::uint8_t>(slot_of(contour.bars[bar], slot));
        keys.push_back(key_of(whole, 1));
        if (bar + 1 == contour.bars.size()) break;
        std::array<std::uint8_t, 2 * kQuarters> quarters{};
        for (std::size_t at = 0; at < quarters.size(); ++at)
            quarters[at] = static_cast<std::uint8_t>(
                slot_of(contour.bars[bar + at / kQuarters], at % kQuarters * (kSlots / kQuarters)));
        keys.push_back(key_of(quarters, 2));
    }
    std::sort(keys.begin(), keys.end());
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    return keys;
}

// Which tunes have a key, and which keys a tune has.
class Index {
public:
    Index(const std::vector<Contour>& contours, const std::vector<bool>& left_out) {
        struct Entry {
            std::uint32_t key;
            std::uint32_t tune;
        };
        std::vector<Entry> entries;
        for (std::uint32_t tune = 0; tune < contours.size(); ++tune) {
            if (left_out[tune]) continue;
            for (const std::uint32_t key : keys_of(contours[tune])) entries.push_back({key, tune});
        }
        std::stable_sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return a.key < b.key; });
        lists_of_.resize(contours.size());
        for (std::size_t from = 0, to = 0; from < entries.size(); from = to) {
            while (to < entries.size() && entries[to].key == entries[from].key) ++to;
            if (to - from < 2 || to - from > kMostSharing) continue;
            const auto list = static_cast<std::uint32_t>(starts_.size());
            starts_.push_back(static_cast<std::uint32_t>(tunes_.size()));
            for (std::size_t at = from; at < to; ++at) {
                tunes_.push_back(entries[at].tune);
                lists_of_[entries[at].tune].push_back(list);
            }
        }
        starts_.push_back(static_cast<std::uint32_t>(tunes_.size()));
    }

    // Those added after `tune` that share most keys with it, at most kMostCompared. `shared` is all zero, one for each
    // tune.
    std::vector<std::uint32_t> find_sharing(std::uint32_t tune, std::vector<std::uint16_t>& shared) const {
        std::vector<std::uint32_t> found;
        for (const std::uint32_t list : lists_of_[tune]) {
            for (std::uint32_t at = starts_[list + 1]; at-- > starts_[list] && tunes_[at] > tune;)
                if (shared[tunes_[at]]++ == 0) found.push_back(tunes_[at]);
        }
        auto keep = std::min(found.size(), kMostCompared);
        std::partial_sort(
            found.begin(), found.begin() + static_cast<std::ptrdiff_t>(keep), found.end(),
            [&](std::uint32_t a, std::uint32_t b) { return shared[a] != shared[b] ? shared[a] > shared[b] : a < b; });
        while (keep > kComparedAnyway && shared[found[keep - 1]] == 1) --keep;
        for (const std::uint32_t other : found) shared[other] = 0;
        found.resize(keep);
        return found;
    }

private:
    std::vector<std::uint32_t> tunes_;                  // list after list, ascending in each
    std::vector<std::uint32_t> starts_;                 // into tunes_
    std::vector<std::vector<std::uint32_t>> lists_of_;  // of each tune
};

}  // namespace

void KinSearch::add(const tune::Outline& outline) {
    contours_.push_back(contour_of(outline));
    classes_.push_back(melody_class(outline));
}

std::vector<KinPair> KinSearch::find_pairs() const {
    std::vector<KinPair> pairs;
    std::vector<bool> has_earlier(size());
    std::unordered_map<std::uint64_t, std::uint32_t> first_of;
    for (std::uint32_t setting = 0; setting < size(); ++setting) {
        if (!classes_[setting]) continue;
        const auto [first, is_new] = first_of.emplace(*classes_[setting], setting);
        if (is_new) continue;
        has_earlier[setting] = true;
        pairs.push_back({first->second, setting, 1, true});
    }
    const Index index(contours_, has_earlier);
    std::vector<std::uint16_t> shared(size());
    for (std::uint32_t setting = 0; setting < size(); ++setting) {
        for (const std::uint32_t other : index.find_sharing(setting, shared)) {
            const double likeness = compare(contours_[setting], contours_[other]);
            if (likeness >= kProbableKin) pairs.push_back({setting, other, likeness, false});
        }
    }
    std::sort(pairs.begin(), pairs.end(), [](const KinPair& a, const KinPair& b) {
        return a.first != b.first ? a.first < b.first : a.second < b.second;
    });
    return pairs;
}

std::vector<Kin> KinSearch::find_kin_of(const tune::Outline& outline) const {
    const Contour contour = contour_of(outline);
    const std::optional<std::uint64_t> own_class = melody_class(outline);
    std::vector<Kin> found;
    for (std::uint32_t setting = 0; setting < size(); ++setting) {
        const bool is_exact = own_class && own_class == classes_[setting];
        const double likeness = is_exact ? 1 : compare(contour, contours_[setting]);
        if (likeness >= kProbableKin) found.push_back({setting, likeness, is_exact});
    }
    std::stable_sort(found.begin(), found.end(), [](const Kin& a, const Kin& b) { return a.likeness > b.likeness; });
    return found;
}

}  // namespace analysis
