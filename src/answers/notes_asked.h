// NOTES of a question, and whose notes a name in them means.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "answers/refusal.h"
#include "instruments/instrument.h"
#include "music/note_expression.h"
#include "music/note_set.h"
#include "planner/together.h"

namespace answers {

// Runs a reading of NOTES; throws Refused of `part` for what cannot be read.
template <typename Read>
auto read_part(Part part, const std::string& text, Read read) {
    try {
        return read(text);
    } catch (const music::NoteExpressionFault& fault) {
        throw Refused({part, Reason::in_words, fault.what()});
    }
}

// Notes that were named one by one and that an instrument has not.
struct LeftOutNotes {
    Part part = Part::none;
    music::NoteSet notes;
    std::string instrument;  // its title

    friend bool operator==(const LeftOutNotes&, const LeftOutNotes&) = default;
};

// With an instrument (it may be null), names mean its notes within its usual compass, and a note it has not is left
// out, which `left_out` tells of those named one by one. Throws Refused for what cannot be read, and where nothing is
// left.
music::NoteSet notes_asked(Part part, const std::string& text, const instruments::Instrument* instrument,
                           const music::NamedNotes& named, std::vector<LeftOutNotes>& left_out);

// Somebody known by nothing but their notes: `NOTES`, `NAME=NOTES`, `NAME on INSTRUMENT=NOTES`, or `NAME on INSTRUMENT`
// for all of its notes. Without an instrument of their own they play `usual`, which may be null: then any note can be
// learnt. The name is empty where none is given. Throws Refused of Part::fits.
planner::Member read_member(const std::string& text, const instruments::Instrument* usual,
                            const music::NamedNotes& named, std::vector<LeftOutNotes>& left_out);

// As `anywhere` reads them: a name where every octave is meant, else each note.
std::vector<std::string> words_of(const music::NoteSet& notes);

// The notes and names of a list, a name meaning every octave.
music::NoteSet anywhere(Part part, const std::string& text);

}  // namespace answers
