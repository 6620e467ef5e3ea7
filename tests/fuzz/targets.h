// What must hold for any bytes at all, a target for each thing that is read: shared by the fuzzing programs and the
// replay of their corpora. A target aborts, saying which promise was broken; faults of the bytes are no fault here.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace fuzz {

// try_read.cc: a tune file; every tune of it is analysed.
void try_read(const std::string& bytes);

// try_moved.cc: a tune file moved by an interval that its bytes decide, and read back.
void try_moved(const std::string& bytes);

// try_notes.cc: notes as they are typed: an expression, a list in which the order counts, a phrase by ear.
void try_notes(const std::string& bytes);

// try_titles.cc: lines up to one that is `?` are the titles of a library, those up to `!` a list that somebody typed,
// the rest what is answered where several tunes may be meant.
void try_titles(const std::string& bytes);

// try_players.cc: a file of players; what comes of it to what is here.
void try_players(const std::string& bytes);

// try_instrument.cc: an instrument of one's own, and a tune played on it.
void try_instrument(const std::string& bytes);

// try_term.cc: a term as it is kept.
void try_term(const std::string& bytes);

// try_outline.cc: a melody as it is kept, compared and searched.
void try_outline(const std::string& bytes);

// try_library.cc: bytes as a library, or a library with some of its bytes or values changed.
void try_library(const std::string& bytes);

struct Target {
    std::string_view name;  // of its folder in tests/fuzz/corpus
    void (*run)(const std::string& bytes);
    int variants = 40;  // of each file, that the replay runs too
};

inline constexpr std::array<Target, 9> kTargets{{{"read", try_read},
                                                 {"moved", try_moved},
                                                 {"notes", try_notes},
                                                 {"titles", try_titles},
                                                 {"players", try_players},
                                                 {"instrument", try_instrument},
                                                 {"term", try_term},
                                                 {"outline", try_outline},
                                                 {"library", try_library, 8}}};

}  // namespace fuzz
