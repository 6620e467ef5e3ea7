#include "repertoire/follow.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

#include "repertoire/pace.h"

namespace repertoire {

namespace {

using music::Key;
using music::Mode;

constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kCustomary{
    std::pair<std::string_view, std::string_view>{"march", "strathspey"}, {"strathspey", "reel"}, {"jig", "reel"}};

bool is_customary(std::string_view first, std::string_view second) {
    return first == "air" ||
           std::find(kCustomary.begin(), kCustomary.end(), std::pair(first, second)) != kCustomary.end();
}

// -5 to 6.
int nearest_octave(int semitones) { return (semitones % 12 + 12 + 5) % 12 - 5; }

bool has_minor_third(Mode mode) { return music::mode_semitones(mode)[2] == 3; }

KeyChange change_of(const Key& first, const Key& second, int semitones) {
    if (first == second) return KeyChange::same;
    const bool goes_up = semitones == 5 || semitones == -5 || semitones == 2;  // a fifth up is a fourth down
    if (goes_up && has_minor_third(first.mode) == has_minor_third(second.mode)) return KeyChange::lift;
    const bool brightens = has_minor_third(first.mode) && !has_minor_third(second.mode);
    if (brightens && (semitones == 0 || semitones == 3 || semitones == -2)) return KeyChange::lift;
    const int apart = std::abs(first.signature_fifths() - second.signature_fifths());
    return apart <= 1 ? KeyChange::near : KeyChange::far;
}

Join join_of(int semitones) {
    const int wide = std::abs(semitones);
    if (wide == 0) return Join::repeat;
    if (wide <= 2) return Join::step;
    if (wide <= 4) return Join::third;
    return wide <= 7 ? Join::leap : Join::wide;
}

int points_of(KeyChange key) {
    switch (key) {
        case KeyChange::lift:
            return kPointsOfLift;
        case KeyChange::near:
            return kPointsOfNearKey;
        case KeyChange::same:
            return kPointsOfSameKey;
        case KeyChange::far:
        case KeyChange::unknown:
            break;
    }
    return 0;
}

int points_of(Join join) {
    switch (join) {
        case Join::repeat:
        case Join::step:
            return kPointsOfEasyJoin;
        case Join::third:
            return kPointsOfThird;
        case Join::leap:
            return kPointsOfLeap;
        case Join::wide:
            break;
    }
    return 0;
}

int points_of(const Follow& follow) {
    int points = points_of(follow.key) + points_of(follow.join);
    points += std::max(0, kPointsWithoutNewNotes - follow.fresh.size());
    if (follow.opening >= kLikeOpening) points += kPointsOfLikeOpening;
    if (follow.top_semitones < -kFallOfTop) points += kPointsOfFallingTop;
    if (follow.rhythm == RhythmChange::customary) points += kPointsOfCustomaryChange;
    return points;
}

}  // namespace

std::string_view to_string(RhythmChange change) { return change == RhythmChange::same ? "same" : "customary"; }

std::string_view to_string(KeyChange change) {
    constexpr std::array<std::string_view, 5> kWords{"lift", "near", "same", "far", "unknown"};
    return kWords[static_cast<std::size_t>(change)];
}

std::string_view to_string(Join join) {
    constexpr std::array<std::string_view, 5> kWords{"repeat", "step", "third", "leap", "wide"};
    return kWords[static_cast<std::size_t>(join)];
}

bool has_same_opening(const Follow& follow) noexcept { return follow.opening >= kSameOpening; }

std::optional<Follow> follow(const TuneShape& first, const TuneShape& second) {
    if (first.id == second.id || first.rhythm.empty() || second.rhythm.empty()) return std::nullopt;
    Follow follow;
    if (first.rhythm != second.rhythm) {
        if (!is_customary(first.rhythm, second.rhythm)) return std::nullopt;
        follow.rhythm = RhythmChange::customary;
    }
    if (first.key && second.key) {
        follow.key_semitones = nearest_octave(second.key->tonic.pitch_class() - first.key->tonic.pitch_class());
        follow.key = change_of(*first.key, *second.key, follow.key_semitones);
    }
    follow.join_semitones = second.first_note - first.last_note;
    follow.join = join_of(follow.join_semitones);
    follow.fresh = second.needed.without(first.needed);
    follow.opening = opening_likeness(first.opening, second.opening);
    if (!first.needed.empty() && !second.needed.empty())
        follow.top_semitones = second.needed.highest() - first.needed.highest();
    if (const auto pace = pace_of(first.rhythm)) follow.easy_pace_from = pace->beats_a_minute(PaceKind::easy);
    if (const auto pace = pace_of(second.rhythm)) follow.easy_pace_to = pace->beats_a_minute(PaceKind::easy);
    follow.points = points_of(follow);
    return follow;
}

Followers rank_followers(const TuneShape& first, const std::vector<TuneShape>& candidates) {
    Followers followers;
    for (std::size_t at = 0; at < candidates.size(); ++at) {
        if (candidates[at].id == first.id) continue;
        const std::optional<Follow> found = follow(first, candidates[at]);
        if (!found)
            ++followers.other_rhythm;
        else if (has_same_opening(*found))
            ++followers.same_opening;
        else
            followers.best.push_back({at, *found});
    }
    std::sort(followers.best.begin(), followers.best.end(), [&](const Follower& a, const Follower& b) {
        if (a.follow.points != b.follow.points) return a.follow.points > b.follow.points;
        return comes_before(candidates[a.tune], candidates[b.tune]);
    });
    return followers;
}

}  // namespace repertoire
