// Chosen tunes as one ABC file, moved to other keys if asked.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/refusal.h"
#include "collection/collection.h"
#include "tune/record.h"

namespace answers {

struct TunebookQuestion {
    std::vector<std::string> which;  // ids or titles, in this order; else all that pass the filter, in its order
    Filter filter;
    int semitones = 0;        // up, or down; -abc::kMostSemitones to abc::kMostSemitones
    bool moves_best = false;  // each to where it lies best on the instrument in the hands, in place of `semitones`
};

// What became of a tune that does not stand in the book as it was asked for.
enum class BookRemark : std::uint8_t {
    not_kept,      // the collection has not its ABC: left out
    never_fits,    // no move of an octave or less makes it fit: left out
    sounds_wrong,  // read back it would not sound as it should, or it cannot be moved: left out
    chord_lost,    // in the book, without a chord name that cannot be moved
};

struct BookNote {
    tune::TuneRecord record;
    BookRemark what = BookRemark::not_kept;
    std::string why;   // what the mover said of it; may be empty
    std::string file;  // of the tune's own text
    std::uint32_t line = 1;
};

struct TunebookAnswer {
    std::string abc;         // UTF-8; empty when no tune is in it
    std::int64_t tunes = 0;  // in the book, numbered from 1
    std::int64_t asked_for = 0;
    std::vector<BookNote> notes;     // in the order of the tunes
    std::vector<Refusal> not_found;  // words that name no tune
    std::vector<LeftOutNotes> left_out_notes;

    bool is_whole() const noexcept { return tunes > 0 && tunes == asked_for; }
};

// Throws Refused.
TunebookAnswer answer(const collection::Collection& collection, const TunebookQuestion& question);

}  // namespace answers
