// An inverted index from keys to the tunes that have them, as two sorted arrays; memory goes with the number of bars.
// Chance makes two tunes share keys, but seldom two keys that lie equally far apart, so that few pairs are compared.
// Tested by kin_search_test.cc.
#include "analysis/kin_search.h"

#include <xxhash.h>

#include <algorithm>
#include <unordered_map>

#include "analysis/melody_class.h"

namespace analysis {

namespace {

// Where two tunes share keys, each says how far apart their bars lie and how many letters. Fewer than this many that
// say the same come about by chance. Source: house choice.
constexpr std::uint32_t kFewestAgreeing = 2;

std::uint64_t slot_of(const ContourBar& bar, std::size_t slot) {
    return bar.letters[slot / (kSlots / 2)] >> (4 * (slot % (kSlots / 2))) & 15;
}

constexpr std::size_t kPlaces = 8;
using Places = std::array<std::uint8_t, kPlaces>;

// A key of a tune: eight letters above the first of them, so that it is the same in every key and mode.
struct Place {
    std::uint32_t tune = 0;
    std::uint16_t bar = 0;
    std::uint8_t letter = 0;  // the first
    bool of_one_bar = false;  // and not of two
};

// Of each two bars by their quarters, and of each bar by its eighths, which is the same where one tune has two bars for
// one of the other.
template <typename Take>
void visit_keys(const Contour& contour, const Take& take) {
    constexpr std::size_t kQuarters = kPlaces / 2;
    const auto give = [&](Places places, std::size_t bar, bool of_one_bar) {
        const std::uint8_t first = places[0];
        if (first > 6) return;
        for (std::uint8_t& letter : places)
            letter = static_cast<std::uint8_t>(letter > 6 ? 15 : (letter + 7 - first) % 7);
        if (std::all_of(places.begin(), places.end(), [](std::uint8_t letter) { return letter == 0; })) return;
        take(static_cast<std::uint32_t>(XXH3_64bits(places.data(), kPlaces)), first, bar, of_one_bar);
    };
    for (std::size_t bar = 0; bar < contour.bars.size(); ++bar) {
        Places places{};
        for (std::size_t at = 0; at < kPlaces; ++at)
            places[at] = static_cast<std::uint8_t>(slot_of(contour.bars[bar], at * (kSlots / kPlaces)));
        give(places, bar, true);
        if (bar + 1 == contour.bars.size()) break;
        for (std::size_t at = 0; at < kPlaces; ++at)
            places[at] = static_cast<std::uint8_t>(
                slot_of(contour.bars[bar + at / kQuarters], at % kQuarters * (kSlots / kQuarters)));
        give(places, bar, false);
    }
}

// Which tunes have a key, and which keys a tune has.
class Index {
public:
    Index(const std::vector<Contour>& contours, const std::vector<bool>& left_out) : starts_of_(contours.size() + 1) {
        std::vector<Place> places;
        std::vector<std::uint64_t> entries;  // the key before the place
        for (std::uint32_t tune = 0; tune < contours.size(); ++tune) {
            starts_of_[tune] = static_cast<std::uint32_t>(places.size());
            if (left_out[tune]) continue;
            visit_keys(contours[tune], [&](std::uint32_t key, std::uint8_t letter, std::size_t bar, bool of_one_bar) {
                entries.push_back(std::uint64_t{key} << 32 | places.size());
                places.push_back({tune, static_cast<std::uint16_t>(bar), letter, of_one_bar});
            });
        }
        starts_of_.back() = static_cast<std::uint32_t>(places.size());
        std::sort(entries.begin(), entries.end());
        rest_of_list_.resize(places.size());
        sorted_.resize(places.size());
        for (std::size_t from = 0, to = 0; from < entries.size(); from = to) {
            while (to < entries.size() && entries[to] >> 32 == entries[from] >> 32) ++to;
            const bool tells = to - from <= kMostSharing;
            for (std::size_t at = from; at < to; ++at) {
                const auto place = static_cast<std::uint32_t>(entries[at]);
                sorted_[at] = places[place];
                rest_of_list_[place] = {static_cast<std::uint32_t>(at + 1),
                                        static_cast<std::uint32_t>(tells ? to : at + 1)};
            }
        }
        places_ = std::move(places);
    }

    // Those added after `tune` that share most keys with it as they lie, at most kMostCompared.
    std::vector<std::uint32_t> find_sharing(std::uint32_t tune) {
        hits_.clear();
        for (std::uint32_t place = starts_of_[tune]; place < starts_of_[tune + 1]; ++place) {
            const Place& own = places_[place];
            for (std::uint32_t at = rest_of_list_[place].first; at < rest_of_list_[place].second; ++at) {
                const Place& other = sorted_[at];
                if (other.tune == tune) continue;
                hits_.push_back(std::uint64_t{other.tune} << 32 | how_it_lies(own, other));
                std::uint8_t& count = count_of(hits_.back());
                count = static_cast<std::uint8_t>(std::min(count + 1, 255));
            }
        }
        // Most stand alone; the counts tell nearly all of these without putting them in order.
        std::vector<std::uint64_t> agreeing;
        for (const std::uint64_t hit : hits_)
            if (count_of(hit) >= kFewestAgreeing) agreeing.push_back(hit);
        for (const std::uint64_t hit : hits_) count_of(hit) = 0;
        std::sort(agreeing.begin(), agreeing.end());
        std::vector<std::pair<std::uint32_t, std::uint32_t>> found;  // how many agree, and the tune
        for (std::size_t from = 0, to = 0; from < agreeing.size(); from = to) {
            while (to < agreeing.size() && agreeing[to] == agreeing[from]) ++to;
            if (to - from < kFewestAgreeing) continue;
            const auto other = static_cast<std::uint32_t>(agreeing[from] >> 32);
            if (found.empty() || found.back().second != other) found.emplace_back(0, other);
            found.back().first += static_cast<std::uint32_t>(to - from);
        }
        const auto keep = std::min(found.size(), kMostCompared);
        std::partial_sort(
            found.begin(), found.begin() + static_cast<std::ptrdiff_t>(keep), found.end(),
            [](const auto& a, const auto& b) { return a.first != b.first ? a.first > b.first : a.second < b.second; });
        std::vector<std::uint32_t> others(keep);
        std::transform(found.begin(), found.begin() + static_cast<std::ptrdiff_t>(keep), others.begin(),
                       [](const auto& one) { return one.second; });
        return others;
    }

private:
    // The letters and bars from one to the other as one number; where a bar of one is like two of the other, bars are
    // counted twice on its side.
    static std::uint64_t how_it_lies(const Place& own, const Place& other) {
        const auto letters = static_cast<std::uint64_t>((own.letter + 7 - other.letter) % 7);
        const bool own_twice = own.of_one_bar && !other.of_one_bar, other_twice = other.of_one_bar && !own.of_one_bar;
        const std::uint64_t sides = own_twice ? 1 : other_twice ? 2 : 0;
        const std::uint64_t bars = std::uint64_t{own.bar} * (own_twice ? 2 : 1) + 2 * kMostBarsCompared -
                                   std::uint64_t{other.bar} * (other_twice ? 2 : 1);
        return sides << 24 | letters << 16 | bars;
    }
    std::uint8_t& count_of(std::uint64_t hit) {
        return counts_[static_cast<std::size_t>(hit * 0x9E3779B97F4A7C15U >> (64 - kCountBits))];
    }

    static constexpr unsigned kCountBits = 14;

    std::vector<Place> places_;                                          // tune after tune
    std::vector<std::uint32_t> starts_of_;                               // of each tune in places_
    std::vector<Place> sorted_;                                          // by key, then as in places_
    std::vector<std::pair<std::uint32_t, std::uint32_t>> rest_of_list_;  // for each place: those in sorted_ behind it
    std::vector<std::uint64_t> hits_;
    std::vector<std::uint8_t> counts_ = std::vector<std::uint8_t>(std::size_t{1} << kCountBits);
};

}  // namespace

void KinSearch::add(const tune::Outline& outline) {
    contours_.push_back(contour_of(outline));
    classes_.push_back(melody_class(outline));
}

std::vector<KinPair> KinSearch::find_pairs(double least) const {
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
    Index index(contours_, has_earlier);
    for (std::uint32_t setting = 0; setting < size(); ++setting) {
        for (const std::uint32_t other : index.find_sharing(setting)) {
            const double likeness = compare(contours_[setting], contours_[other]);
            if (likeness >= least) pairs.push_back({setting, other, likeness, false});
        }
    }
    std::sort(pairs.begin(), pairs.end(), [](const KinPair& a, const KinPair& b) {
        return a.first != b.first ? a.first < b.first : a.second < b.second;
    });
    return pairs;
}

std::vector<Kin> KinSearch::find_kin_of(const tune::Outline& outline, double least) const {
    const Contour contour = contour_of(outline);
    const std::optional<std::uint64_t> own_class = melody_class(outline);
    std::vector<Kin> found;
    for (std::uint32_t setting = 0; setting < size(); ++setting) {
        const bool is_exact = own_class && own_class == classes_[setting];
        const double likeness = is_exact ? 1 : compare(contour, contours_[setting]);
        if (likeness >= least) found.push_back({setting, likeness, is_exact});
    }
    std::stable_sort(found.begin(), found.end(), [](const Kin& a, const Kin& b) { return a.likeness > b.likeness; });
    return found;
}

}  // namespace analysis
