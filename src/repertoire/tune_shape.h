// What of a tune decides how it stands in a set: how it begins and ends, and how long it goes on.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include "music/key.h"
#include "music/note_set.h"
#include "tune/outline.h"
#include "tune/record.h"

namespace repertoire {

// What sounds in the first two whole bars, pick-up left out: pitch classes at 24 places a bar, kNothingSounds before
// the first note. Source of the number: house choice; both twos and threes of quavers divide it.
constexpr std::size_t kPlacesInBar = 24;
constexpr std::size_t kBarsOfOpening = 2;
constexpr std::uint8_t kNothingSounds = 12;
using Opening = std::array<std::uint8_t, kPlacesInBar * kBarsOfOpening>;

// Bars of a part of a dance tune. Source: common practice, no source.
constexpr int kBarsOfPart = 8;

struct TuneShape {
    tune::TuneId id;
    std::string title;  // as shown; empty where there is none
    std::string folded_title;
    std::string rhythm;                              // a token, as tune::danced_rhythm(); empty when unknown
    tune::Basis rhythm_basis = tune::Basis::stated;  // of what rhythm there is
    std::string rhythm_contradicted;                 // what R: says, where the meter allows no such thing; else empty
    std::string meter;                               // `6/8`, `none`
    std::optional<music::Key> key;
    bool key_decided = false;
    music::NoteSet needed;
    int first_note = 60;  // MIDI, pick-up included
    int last_note = 60;   // where a player ends
    int bars = 0;         // played once, repeats and endings played out, pick-ups left out; a bar that is
                          // cut short for a pick-up is a whole one
    // Two parts or more of eight bars each, all different, without a repeat or a way back: as old books print tunes
    // whose parts every player repeats.
    bool is_printed_once = false;
    Opening opening{};

    bool is_rhythm_guessed() const { return !rhythm.empty() && tune::is_guess(rhythm_basis); }

    friend bool operator==(const TuneShape&, const TuneShape&) = default;
};

// Nothing for a tune without a note.
std::optional<TuneShape> shape_of(const tune::TuneRecord& record, const tune::Outline& outline);

// Share of the two bars in which the same sounds, in the key that makes most of it: 0 to 1, the same both ways. Octaves
// do not count.
double opening_likeness(const Opening& one, const Opening& other);

// As listed: by title, then id.
bool comes_before(const TuneShape& one, const TuneShape& other);

}  // namespace repertoire
