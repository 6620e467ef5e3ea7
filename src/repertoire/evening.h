// A set list for an evening: sets of tunes that follow one another well, as many as fill the time.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "repertoire/follow.h"
#include "repertoire/pace.h"
#include "repertoire/tune_shape.h"

namespace repertoire {

struct EveningGoal {
    int minutes = 60;  // 1 to kMostMinutes
    int times = 3;     // each tune is played through, 1 to kMostTimes
    int in_set = 3;    // tunes of a set, 2 to kMostInSet; one fewer, but not below 2, where that serves better
    PaceKind pace = PaceKind::easy;
    bool for_dance = false;   // only tunes of whole parts of eight bars
    bool as_printed = false;  // parts printed without repeats are played once
};

constexpr int kMostMinutes = 600;
constexpr int kMostTimes = 9;
constexpr int kMostInSet = 5;

// Sets of one rhythm in a row, where there are others. Source: common practice, no source.
constexpr int kMostRunning = 2;

// What is made better, in seconds. Source: house choices: a point of follow.h is worth so many seconds beside the time
// asked for, a rhythm that comes twice running costs so much, and so does a set of three or more tunes in one key
// throughout.
constexpr int kSecondsOfPoint = 30;
constexpr int kSecondsOfRunning = 90;
constexpr int kSecondsOfOneKey = 180;

// Tunes of a rhythm that are looked at, or as many as there are minutes where that is more; of others those at even
// distances in the order of titles. Source: house choice: the work goes with its square.
constexpr std::size_t kMostOfRhythm = 120;

// Exchanges tried at most. Source: house choice, some seconds.
constexpr std::int64_t kMostTrials = 400'000;

struct EveningTune {
    std::size_t tune = 0;        // into the candidates
    int seconds = 0;             // all times through, by whole bars, rounded
    std::optional<Follow> join;  // to the tune before in the set
};

struct EveningSet {
    std::string rhythm;
    std::vector<EveningTune> tunes;
};

struct Evening {
    std::vector<EveningSet> sets;
    int seconds = 0;          // of all sets, without the time between them
    bool is_filled = false;   // short of the time asked for by half a set at most, by the mean of the tunes
    bool is_settled = false;  // no single exchange makes it better; else kMostTrials ended the search

    std::int64_t considered = 0;    // tunes
    std::int64_t without_pace = 0;  // whose rhythm has no beat to count, or is unknown
    std::int64_t odd_length = 0;    // left out for dancing
    std::size_t most_of_rhythm = kMostOfRhythm;
    std::int64_t not_looked_at = 0;    // beyond most_of_rhythm
    std::int64_t without_company = 0;  // the only one of its rhythm
};

// Whether each part is played twice though no repeat is printed. Source: common practice, no source.
bool are_parts_repeated(const TuneShape& tune, const EveningGoal& goal);

// Seconds that one tune lasts; nothing where its rhythm has no pace or it has no bars.
std::optional<int> seconds_of(const TuneShape& tune, const EveningGoal& goal);

// Whether it is whole parts of eight bars; bars of 12/8 count twice. Source: common practice, no source.
bool has_whole_parts(const TuneShape& tune);

// Sets are built greedily, then made better by single exchanges (a tune for another, two tunes among sets, the order of
// a set, two sets, a tune or a set less, a tune more, a set of two more) until none helps: a local optimum, not proved
// to be the best. The total is never more than half a tune, by the mean of the candidates, above the time. A function
// of its arguments: the order of the candidates does not matter. `goal` must be within the limits above.
Evening plan_evening(const std::vector<TuneShape>& candidates, const EveningGoal& goal);

}  // namespace repertoire
