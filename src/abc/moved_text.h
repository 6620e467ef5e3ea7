// Music outside its bar - the two sides of a macro, the place of its use - and quoted chords, moved as they stand.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "abc/edits.h"
#include "abc/interval.h"
#include "base/source_file.h"
#include "base/span.h"

namespace abc {

// Why something stays where it is.
struct Hindrance {
    base::Span where;
    std::string message;
    bool is_macro = false;  // writing out the macros may help
};

// One key to another: the interval, and the signature it leads to.
struct Move {
    Move(const music::StatedKey& key, int semitones) noexcept
        : interval(interval_of(key, semitones)), fifths(fifths_of(key) + interval.fifths) {}

    Interval interval;
    int fifths;  // of the new signature, for spelling
};

// A note without the memory of a bar: its letter goes with the key, its sign where it has one. Nothing where that
// would take more than a double sign. Not for quarter tones.
std::optional<Token> moved_alone(const Token& note, const Interval& interval);

// A chord symbol that is not understood and so left out of the moved text.
struct LostChord {
    base::Span where;
    std::string text;
};

// What to write in the place of a chord symbol left out: a length behind it must not come to stand behind a note.
std::string_view in_place_of_lost(std::string_view behind) noexcept;

// Notes and chord symbols of a stretch of music text, each moved alone.
std::optional<Hindrance> move_music_text(const base::SourceFile& source, base::Span where, const Move& move,
                                         Edits& edits, std::vector<LostChord>& lost);

// `target = replacement`, both sides.
std::optional<Hindrance> move_macro(const base::SourceFile& source, base::Span where, const Move& move, Edits& edits,
                                    std::vector<LostChord>& lost);

// The text of a note moved to where `moved` says, in the writer's own way.
std::string moved_note_text(std::string_view note, const Token& moved);

}  // namespace abc
