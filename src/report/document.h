// An answer before it is written: blocks that are data, which every writer shows in its own way. A number is still a
// number, a set of notes still a set.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/date.h"
#include "instruments/instrument.h"
#include "music/note_set.h"

namespace report {

struct Share {
    double value = 0;  // 0 to 1
};
struct Notes {
    music::NoteSet notes;
    int fifths = 0;        // of the signature that spells them
    bool by_name = false;  // without octaves, each name once
};
struct Duration {
    int seconds = 0;  // at least 0
};
// Several texts in one cell, none for nothing.
struct Items {
    std::vector<std::string> texts;
};
// The cell above goes on: one over several rows.
struct FromAbove {};

// The first is what nobody knows; an empty text is where nothing is to be said.
using Cell =
    std::variant<std::monostate, std::string, std::int64_t, Share, Notes, Duration, base::Date, Items, FromAbove>;

// What becomes of a column where there is no room for all of it. No number is ever cut.
enum class Fit {
    whole,
    cut,      // with an ellipsis
    wrapped,  // goes on in lines below, broken at blanks
};

struct Column {
    std::string title;
    Fit fit = Fit::whole;
    std::size_t narrowest = 8;  // letters it keeps where it is cut or wrapped, at least 1
};

// The first column names its row.
struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;  // each as long as `columns`
};

// What the whole document is about: the first block, where there is one.
struct Title {
    std::string text;
    bool goes_without_saying = false;  // on a terminal, where it was asked for just above
};

struct Heading {
    std::string text;
};

struct Paragraph {
    std::string text;
};

// What else one can ask.
struct Hint {
    std::string text;
};

// What to take care of, when playing and practising.
struct Caution {
    std::string text;
};

// For passing on as it is: one line, however long.
struct Line {
    std::string text;
};

// Something new begins.
struct Break {};

// What comes now is of the whole document, no longer of what the last heading names.
struct SectionEnd {};

// A label and what it says, one under the other; without a label it is more of the one above.
struct Particulars {
    std::vector<std::pair<std::string, std::string>> lines;
};

// Places or things, and what is said of each.
struct Remark {
    std::string about;
    std::vector<std::string> words;  // a sentence or two each
};
struct Remarks {
    std::vector<Remark> remarks;
};

struct List {
    std::vector<std::string> items;
    bool is_numbered = false;  // from 1 on
};

// A tune or a piece of one, in ABC; whole lines.
struct Music {
    std::string abc;
};

// What is typed or what stands in a file, as it is; whole lines.
struct Example {
    std::string text;
};

// Bars with the buttons, fingers or holes under the notes.
struct FingeredBar {
    std::string name;  // `bar 3`, `pick-up`
    std::vector<std::string> notes;
    std::vector<std::string> ways;  // one a note
    std::string air;                // a letter a note: press, draw or blow; a blank for none
};
struct FingeredBars {
    bool has_air = false;  // the instrument sounds by press and draw
    std::vector<FingeredBar> bars;
};

// An instrument as its player sees it.
struct InstrumentPicture {
    instruments::Instrument instrument;
    music::NoteSet marked;
};

// What grows with what, several ways beside each other; the numbers stand in the document as well.
struct Curves {
    struct Curve {
        std::string name;
        std::vector<std::pair<double, double>> points;  // across and up, from 0; across ascending
    };
    std::string title;
    std::string across, up;  // what is counted, such as `notes learnt`, `tunes open`
    std::vector<Curve> curves;
};

using DocumentBlock = std::variant<Title, Heading, Paragraph, Hint, Caution, Line, Break, SectionEnd, Table,
                                   Particulars, Remarks, List, Music, Example, FingeredBars, InstrumentPicture, Curves>;

struct Document {
    std::vector<DocumentBlock> blocks;
    bool is_prose = false;  // to be read from top to bottom: every block stands apart from the one before
};

}  // namespace report
