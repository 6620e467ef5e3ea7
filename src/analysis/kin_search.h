// The settings of a collection that are probably one tune.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analysis/kinship.h"
#include "tune/outline.h"

namespace analysis {

struct KinPair {
    std::uint32_t first = 0;  // as they were added, from 0; below `second`
    std::uint32_t second = 0;
    double likeness = 0;    // compare(), 1 for exact ones
    bool is_exact = false;  // of one melody_class

    friend bool operator==(const KinPair&, const KinPair&) = default;
};

struct Kin {
    std::uint32_t setting = 0;
    double likeness = 0;
    bool is_exact = false;

    friend bool operator==(const Kin&, const Kin&) = default;
};

// A bar or phrase that more tunes than this have tells nothing and is not followed. Source: house choice; it keeps the
// work near to linear, and no tune is likely to come in as many different settings.
constexpr std::size_t kMostSharing = 200;

// Of the settings that share keys with one, those that share most are compared. Source: house choice.
constexpr std::size_t kMostCompared = 24;

// Holds contours only: below 2 kB a setting while it looks for pairs, measured on 100,000 invented ones.
class KinSearch {
public:
    void add(const tune::Outline& outline);
    std::size_t size() const noexcept { return contours_.size(); }

    // All pairs from `least` on, in order of first, then second; but of a melody class the first setting stands
    // for all, and each other one is paired with it alone. Settings are compared when two of their bars, or pairs of
    // bars, are alike on the eight places of the first and the quarters of the second, in any key and mode, and lie as
    // far from one another in both (n-grams of intervals, as Downie, Annual Review of Information Science and
    // Technology 37, 2003, pages 295-340, describes them), within the limits above: so a pair may be missed that
    // compare() would find. tests/alike/README.md tells how many are.
    std::vector<KinPair> find_pairs(double least = kPossibleKin) const;

    // Every setting from `least` on, likest first, then as added. Compares with all, so it misses none.
    std::vector<Kin> find_kin_of(const tune::Outline& outline, double least = kPossibleKin) const;

private:
    std::vector<Contour> contours_;
    std::vector<std::optional<std::uint64_t>> classes_;
};

}  // namespace analysis
