// What it takes a player to learn a tune, every part by itself.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "music/note_set.h"
#include "repertoire/bar_stock.h"
#include "tune/outline.h"
#include "tune/record.h"

namespace repertoire {

// Source of what makes a tune hard: common practice, no source.
enum class LoadPart : std::uint8_t {
    notes,    // each note to learn
    strikes,  // each time such a note is struck
    bars,     // each different bar that is in no tune the player knows, in any key
    range,    // each semitone beyond the widest tune the player knows, at least an octave
    leaps,    // each leap of kLeap semitones or more
    hand,     // what the hand has to do for a note, in the costs of the instrument's file
    pace,     // notes a second at an easy pace
    rhythm,   // each of the tunes taken up last that has the same rhythm, back to the first that has not
};
constexpr std::size_t kLoadParts = 8;

std::string_view to_string(LoadPart part);  // as its name
std::optional<LoadPart> parse_load_part(std::string_view token);

constexpr int kLeap = 8;               // semitones: a minor sixth. Source: common practice, no source
constexpr int kOctave = 12;            // semitones
constexpr std::size_t kLastTunes = 3;  // that are looked back on. Source: house choice
constexpr int kMostAsked = 10;         // times a tune was asked for that count. Source: house choice
constexpr int kMostWeight = 1000;

// Points for one of each part; 0 leaves it out. Source: house choices. A note to learn weighs like five bars, a wish
// like a note and a half, and a tune that everybody plays like five bars less.
struct LoadWeights {
    std::array<int, kLoadParts> of{10, 1, 2, 1, 1, 4, 1, 4};
    int wish = 15;  // taken away for a tune the player wishes for
    int asked = 1;  // taken away for each time a tune was asked for, kMostAsked at most

    int operator[](LoadPart part) const { return of[static_cast<std::size_t>(part)]; }
    friend bool operator==(const LoadWeights&, const LoadWeights&) = default;
};

// A tune as somebody meets it who is to learn it.
struct TuneMatter {
    tune::TuneId id;
    tune::SettingId setting;
    std::string folded_title;
    std::string rhythm;  // a token; empty when unknown
    music::NoteSet needed;
    std::vector<Figure> figures;              // of its different bars, see bar_stock.h
    std::vector<std::pair<int, int>> struck;  // MIDI number, and how often it is struck as written; ascending
    int range = 0;                            // semitones
    int leaps = 0;                            // of kLeap or more, as written
    std::optional<int> pace;                  // tenths of a note a second, at the middle of an easy pace
    int asked = 0;                            // times it was asked for, 0 to kMostAsked
};

TuneMatter matter_of(const tune::TuneRecord& record, const tune::Outline& outline);

// Somebody who learns.
struct Learner {
    music::NoteSet have;
    BarStock bars;                          // of the tunes they know
    int widest = kOctave;                   // semitones: of these tunes, and an octave at least
    std::vector<std::string> last_rhythms;  // of the tunes taken up last, the latest first; kLastTunes at most
};

struct Load {
    music::NoteSet fresh;
    int strikes = 0;
    int different_bars = 0;  // as they stand in the tune
    int bars_to_learn = 0;   // of these, in no tune the player knows, in any key
    int beyond = 0;          // semitones
    int leaps = 0;
    std::optional<int> hand;  // tenths of a cost for a note; nothing without an instrument
    std::optional<int> pace;  // tenths of a note a second; nothing where the rhythm has no beat
    int same_rhythm = 0;

    // Tenths of the part.
    int tenths_of(LoadPart part) const;
    friend bool operator==(const Load&, const Load&) = default;
};

// `hand` is left for the caller.
Load load_of(const TuneMatter& tune, const Learner& learner);

// In tenths of a point.
int weigh(const Load& load, const LoadWeights& weights);

}  // namespace repertoire
