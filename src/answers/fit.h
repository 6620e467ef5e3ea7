// How much of a collection instruments can play.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "collection/collection.h"
#include "instruments/instrument.h"

namespace answers {

// What a player of a year or so has. Source: the meaning of the grades (instruments/instrument.h).
constexpr int kEasyGrade = 3;

struct FitQuestion {
    Filter filter;  // its instrument is the one asked about; without one all there are
};

// Tunes, each counted where it first fits.
struct InstrumentFit {
    std::shared_ptr<const instruments::Instrument> instrument;  // never null
    std::int64_t now = 0;                                       // as written
    std::int64_t easy = 0;                                      // of these, with no note above kEasyGrade
    std::int64_t folded = 0;  // with missing notes an octave up or down, those that fit as written included
    std::int64_t moved = 0;   // moved by an octave or less, not folded; those that fit as written included
};

struct FitAnswer {
    std::vector<InstrumentFit> rows;
    std::int64_t tunes = 0;  // that pass the filter and have a note
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
FitAnswer answer(const collection::Collection& collection, const FitQuestion& question);

}  // namespace answers
