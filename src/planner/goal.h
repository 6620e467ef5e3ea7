// What a learning path is asked for: the tunes wanted, the notes already there, what the teacher insists on, and how
// hard to think.
#pragma once

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "music/note_set.h"
#include "tune/record.h"

namespace planner {

// One tune to open. `needed` must not be empty: what to make of a tune without notes is the caller's business.
struct Wanted {
    tune::TuneId id;
    music::NoteSet needed;
    std::int64_t weight = 1;  // 0 or more; a tune of weight 0 is planned for, but costs nothing while it waits
};

// The weights of all tunes together must not exceed this. With times of at most kLongestTime (note_groups.h) every cost
// is then a whole number below 2^53, exact in 64 bits and in a double.
constexpr std::int64_t kMaxTotalWeight = std::int64_t{1} << 39;

// When to stop proving and print the gap instead. Source: house choice: a patient user's ten seconds, and the memory of
// a small laptop (29 notes that do not fall apart need 1 GiB).
struct Limits {
    std::size_t max_states = 2'000'000;                  // sets of notes a search may meet, 200 bytes or so each
    std::size_t max_table_bytes = std::size_t{1} << 30;  // of a table over all sets of notes of a block
    double max_seconds = 10;                             // 0 or less: only what takes no time to speak of is proven
    const std::atomic<bool>* stop = nullptr;             // true: as if the seconds were over. May be set at any time
};

// Notes learnt in one go. Without a time the group takes as long as the note of it that takes longest. Notes that are
// there already or avoided fall out of it.
struct Group {
    music::NoteSet notes;
    std::optional<std::int64_t> time;  // 1 to kLongestTime
};

// `first` is learnt before `then`, both MIDI numbers. Says nothing where `first` is there already or no tune needs
// `then`.
struct Before {
    int first = 0;
    int then = 0;
};

// A tune that has to open once so many notes (groups counting one) have been learnt.
struct Must {
    tune::TuneId id;         // one of the wanted
    std::int64_t steps = 0;  // 0: whenever it may be
};

constexpr std::array<std::int64_t, music::kMidiNotes> every_note_takes(std::int64_t time) noexcept {
    std::array<std::int64_t, music::kMidiNotes> times{};
    times.fill(time);
    return times;
}

struct Goal {
    music::NoteSet have;                                                      // notes that are there at the start
    music::NoteSet avoid;                                                     // never to be learnt
    std::array<std::int64_t, music::kMidiNotes> times = every_note_takes(1);  // to learn each note, 1 to kLongestTime
    bool by_name = false;                                                     // a note name in all octaves is a group
    std::vector<Group> groups;  // no note in two of them; not with by_name
    std::vector<int> first;     // how the path begins, MIDI numbers
    std::vector<Before> before;
    std::vector<Must> must;           // these tunes weigh at least 1
    std::size_t max_steps = 0;        // steps to show; 0: all. Cost and bounds always speak of the whole path
    std::size_t runners_up = 3;       // alternatives named beside each step, at most
    bool weigh_alternatives = false;  // say what they would cost
    Limits limits;
};

}  // namespace planner
