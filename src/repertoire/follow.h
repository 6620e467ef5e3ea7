// How well one tune follows another in a set: every part by itself, in points.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "music/note_set.h"
#include "repertoire/tune_shape.h"

namespace repertoire {

// The same rhythm, or one of the customary changes: march to strathspey, strathspey to reel, jig to reel, an air before
// anything. Nothing else follows. Source: common practice, no source.
enum class RhythmChange : std::uint8_t { same, customary };

// By the likeliest keys, their modes counted as major or minor by the third. `lift`: up a fourth, a fifth or a whole
// tone from major to major or minor to minor; from minor to the major key of the same home note, a minor third above,
// or a tone below. `same`: home note and mode stay. `near`: signatures at most one sharp or flat apart. `far`: all
// else. Source: common practice, no source, for what lifts; `near` and `far` are a house choice.
enum class KeyChange : std::uint8_t { lift, near, same, far, unknown };

// From the last note of the one to the first of the next, pick-up included. `repeat` 0 semitones, `step` 1 or 2,
// `third` 3 or 4, `leap` up to a fifth (7), `wide` beyond. Source: common practice, no source: repeat, step and third
// are easy, a wide leap is a known trip point; where leap ends and wide begins is a house choice.
enum class Join : std::uint8_t { repeat, step, third, leap, wide };

std::string_view to_string(RhythmChange change);
std::string_view to_string(KeyChange change);
std::string_view to_string(Join join);

// Points of each part. Source: house choices. Key and join weigh alike; what a learner has to add weighs less, and a
// like opening, which leads players back into the wrong tune, takes away what the best key gives.
constexpr int kPointsOfLift = 4;
constexpr int kPointsOfNearKey = 2;
constexpr int kPointsOfSameKey = 1;
constexpr int kPointsOfEasyJoin = 4;  // repeat or step
constexpr int kPointsOfThird = 3;
constexpr int kPointsOfLeap = 1;
constexpr int kPointsWithoutNewNotes = 2;  // one less for each new note, down to 0
constexpr int kPointsOfLikeOpening = -4;   // from kLikeOpening on
constexpr int kPointsOfFallingTop = -1;    // the highest note lies more than kFallOfTop semitones lower
constexpr int kPointsOfCustomaryChange = -2;

// Shares of the first two bars. Source: house choices. From kSameOpening on a tune is not proposed.
constexpr double kLikeOpening = 0.6;
constexpr double kSameOpening = 0.9;
constexpr int kFallOfTop = 2;

struct Follow {
    RhythmChange rhythm = RhythmChange::same;
    KeyChange key = KeyChange::unknown;
    int key_semitones = 0;  // of the home note: -5 to 6, up positive; 0 when unknown
    Join join = Join::repeat;
    int join_semitones = 0;  // up positive
    music::NoteSet fresh;    // needed by the next and not by the first
    double opening = 0;      // likeness of the two openings, 0 to 1
    int top_semitones = 0;   // how far the highest note lies above that of the first
    // By the middle of the usual paces; nothing where one of them has no beat. The same where the rhythm is.
    std::optional<int> easy_pace_from, easy_pace_to;

    int points = 0;  // of all parts together

    friend bool operator==(const Follow&, const Follow&) = default;
};

// Nothing where the second does not follow the first: another rhythm (but the customary), an unknown one, or the same
// tune.
std::optional<Follow> follow(const TuneShape& first, const TuneShape& second);

bool has_same_opening(const Follow& follow) noexcept;

struct Follower {
    std::size_t tune = 0;  // into the candidates
    Follow follow;

    friend bool operator==(const Follower&, const Follower&) = default;
};

struct Followers {
    std::vector<Follower> best;     // most points first; equals by title, then id
    std::int64_t other_rhythm = 0;  // candidates that do not follow
    std::int64_t same_opening = 0;  // candidates not proposed because they begin the same
    friend bool operator==(const Followers&, const Followers&) = default;
};

// The order does not depend on that of the candidates.
Followers rank_followers(const TuneShape& first, const std::vector<TuneShape>& candidates);

}  // namespace repertoire
