// What an instrument can play, and how each note is made on it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "instruments/motion.h"
#include "music/key.h"
#include "music/note_expression.h"
#include "music/note_set.h"

// Facts of an instrument (which notes, where, how hard) come from its file in src/instruments/data, and every way of
// making a note names its source there: a publication, `common practice, no source`, or `from memory`.
namespace instruments {

// Which way the air goes, where that decides what sounds: bellows are pressed or drawn, a harmonica is blown or drawn.
enum class Direction : std::uint8_t { none, press, draw, blow };

// `none`, `press`, `draw`, `blow`: used by files, JSON, CSV and pages alike.
std::string_view direction_token(Direction direction) noexcept;
std::optional<Direction> parse_direction(std::string_view token) noexcept;

// How hard a note is for a beginner of the instrument. 1 first lessons; 2 first term; 3 first year: a new hand shape, a
// row change, a cross-fingering; 4 later: half-hole, stretch, end of the range; 5 avoid unless the tune is worth it.
// Source: common practice, no source.
constexpr int kEasiestGrade = 1;
constexpr int kHardestGrade = 5;

// One way of making a note.
struct Way {
    std::string technique;  // `press`, `bowed`, `half-hole`, ...; words of the trade, never empty
    std::string row;        // row of buttons, string, hole: `C row`, `A`, `hole 4`; empty where there is none
    std::string position;   // button, fret, finger, lever: `6`, `2 low`, `up`; empty where there is none
    std::string fingering;  // the whole of it as a player reads it: `C row 6 draw`, `XXX|XOO`; never empty
    Direction direction = Direction::none;
    int grade = kEasiestGrade;  // kEasiestGrade to kHardestGrade
    std::string reason;         // why that grade
    std::string source;         // where the fact comes from; never empty

    friend bool operator==(const Way&, const Way&) = default;
};

struct InstrumentNote {
    int written = 60;            // MIDI, as the tune is written: compare tunes with this
    bool is_core = false;        // in the compass most tunes use on this instrument
    std::vector<Way> ways;       // the usual one first; never empty
    int grade() const noexcept;  // of the easiest way

    friend bool operator==(const InstrumentNote&, const InstrumentNote&) = default;
};

struct Instrument {
    std::string id;     // `bc21`
    std::string title;  // `B/C button accordion, 21 keys`
    std::string family;
    int sounding_offset = 0;        // semitones; what sounds is what is written plus this
    music::Compass core;            // the usual compass, MIDI, as written
    std::vector<std::string> rows;  // rows, strings or holes as a player draws them, top to bottom; may be empty
    // A short sign for each of `rows`, for a line under the notes: `i` for an inner row; empty where the position says
    // enough.
    std::vector<std::string> row_signs;
    std::vector<music::Key> keys;       // in which most tunes are played on it; may be empty
    MotionCosts motion_costs{};         // what the cheapest way to play a tune is judged by
    std::string source;                 // of the whole table
    std::string caveat;                 // what differs between makers or players; may be empty
    std::vector<std::string> cautions;  // for hands, posture, hearing: a sentence each; may be empty
    std::vector<InstrumentNote> notes;  // ascending by `written`, each once; never empty

    music::NoteSet note_set() const;                     // as written
    const InstrumentNote* note(int midi) const;          // as written; null where the instrument has not the note
    int grade(int midi) const;                           // 0 where the instrument has not the note
    Instrument only(const music::NoteSet& notes) const;  // with no others; may be left without any
    Instrument up_to_grade(int grade) const;             // with no harder ways; may be left without any note
    Instrument with_any_ways() const;                    // a second way of a note costs nothing
    bool has_levers() const;                             // a string has two states, one at a time
    bool is_bisonoric() const;                           // the direction of the air decides what sounds
};

}  // namespace instruments
