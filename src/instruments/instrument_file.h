// Instruments as people write them down: a TOML file with a line for each way of making a note.
//
//   title  = "Box of my own"            what it is called
//   family = "one-row"                  what kind of thing it is
//   source = "my own box"               where the table comes from
//   core   = "D4..B5"                   compass of most tunes; without it, all notes
//   sounding_offset = 12                semitones that sound above what is written (negative: below); without it 0
//   caveat = "..."                      what differs from box to box
//   cautions = ["..."]                  for hands, posture, hearing
//   rows = ["D row"]                    rows, strings or holes from top to bottom; without it, as the ways name them
//   row_signs = { "D row" = "d" }       a short sign for each row, for a line under the notes
//   keys = ["D major", "B minor"]       in which most tunes are played on it
//   motions = { direction = 4, row = 1 }   what each motion of the hand costs (motion.h); without it, nothing is judged
//   technique = "bowed"                 of every way without a technique of its own; without it, the direction
//   fingering = "{row} string {position}"   how a way reads; without it, `{row} {position} {direction}`
//   grade = 2                           of every way without a grade of its own
//   way_source = "common practice, no source"   of every way without a source of its own; without it, `source`
//   columns = ["note", "row", "position", "direction", "grade", "reason"]
//   ways = [
//       ["D4", "D row", 3, "press", 1, "home"],
//       ["E4", "D row", 3, "draw", 1, "home"],
//   ]
//   [reasons]                           where there is such a table, reasons are written as its words
//   home = "middle of the keyboard"
//   [sources]                           the same for the column `source`
//
// Columns are note, row, position, direction, technique, fingering, grade, reason and source, in any order. `""` in a
// line, but for note and grade, stands for what holds without the column. The ways of a note stand in the order of the
// file, the usual one first.
//
// With `based_on = "bc21"` the file says only what differs. `semitones = 3` moves every note, `row_names` gives rows
// their new names, and ways of its own stand before those of the other instrument; where one has the row, position,
// direction, technique and fingering of another, it takes its place. Rows that `rows` leaves out come after it.
#pragma once

#include <cstdint>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>

#include "instruments/instrument.h"

namespace instruments {

// Source: house choice, some thirty times the longest table there is.
constexpr std::size_t kMostFileBytes = 1 << 20;

// Why a file is no instrument. `what()` is `my-box.toml:3:9: ` and a sentence.
class InstrumentFault : public std::runtime_error {
public:
    InstrumentFault(const std::string& label, std::uint32_t line, std::uint32_t column, const std::string& sentence);

    std::uint32_t line() const noexcept { return line_; }      // from 1
    std::uint32_t column() const noexcept { return column_; }  // from 1, in code points

private:
    std::uint32_t line_;
    std::uint32_t column_;
};

// The instrument a file may be based on; null where there is none of that id.
using FindInstrument = std::function<const Instrument*(std::string_view id)>;

// `label` names the file in faults. Throws InstrumentFault at the first thing that cannot be read.
Instrument read_instrument(std::string_view text, std::string id, const std::string& label, const FindInstrument& find);

}  // namespace instruments
