// How much of a collection each instrument can play: `gamut instrument fit`.
#pragma once

#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "report/document.h"

namespace report {

// What a player of a year or so has. Source: the meaning of the grades (instruments/instrument.h).
constexpr int kEasyGrade = 3;

// Tunes, each counted where it first fits.
struct FitRow {
    const instruments::Instrument* instrument = nullptr;  // never null; must outlive this
    std::int64_t now = 0;                                 // as written
    std::int64_t easy = 0;                                // of these, with no note above kEasyGrade
    std::int64_t folded = 0;  // with missing notes an octave up or down, those that fit as written included
    std::int64_t moved = 0;   // moved by an octave or less, not folded; those that fit as written included

    friend bool operator==(const FitRow&, const FitRow&) = default;
};

struct FitPage {
    std::vector<FitRow> rows;
    std::int64_t tunes = 0;  // that pass the filter and have a note
};

Document describe(const FitPage& page);
Document tabulate(const FitPage& page);
std::string as_json(const FitPage& page);

}  // namespace report
