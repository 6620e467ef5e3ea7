// How the things of the trade are put into words, the same in every report.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "answers/reach.h"
#include "music/key.h"
#include "music/note_set.h"
#include "report/document.h"
#include "tune/record.h"

namespace report {

constexpr const char* kRhythmGuessed =
    "? behind a rhythm: the notes, the meter or the words say so, not the file's R: or title.";

std::vector<std::string> note_names(const music::NoteSet& notes, int fifths = 0);  // ascending: `A3`, `C#5`
std::string note_list(const music::NoteSet& notes, int fifths = 0);                // parted by blanks; `-` when empty
std::string notes_listed(const Notes& notes);
std::string note_or_dash(std::optional<int> midi, int fifths = 0);
std::string range_of(const music::NoteSet& notes, int fifths = 0);  // `D4..B5`; `-` when empty

// What is said of tunes that need a note which is not where `reach` says; nothing where there are none.
void describe_out_of_reach(std::int64_t tunes, const answers::Reach& reach, Document& document);

std::string rhythm_in_words(const tune::TuneRecord& record);  // `reel (computed; hornpipe possible)`; `unknown`
// `reel`, and `reel ?` where the file does not say it and the notes do; kRhythmGuessed is told once below such rows.
std::string marked_rhythm(const std::string& rhythm, bool is_guessed);
bool is_rhythm_guessed(const tune::TuneRecord& record);
std::string rhythm_in_plural(const std::string& rhythm);   // `reels`, `waltzes`; of a token
std::string with_article(const std::string& rhythm);       // `a reel`, `an air`
std::string key_in_words(const tune::TuneRecord& record);  // `A dorian`, `A dorian or minor; or G major`, `-`
// `C major`; `E minor (before the music: C major)` where another K: stands before the first note.
std::string stated_key_in_words(const tune::TuneRecord& record);
std::string keys_in_words(std::span<const music::Key> keys);  // the same of candidates; empty for none
std::string counted(std::int64_t number, const std::string& one, const std::string& many);  // `1 tune`, `3 tunes`
double share_of(std::int64_t part, std::int64_t whole);                                     // 0 to 1; 0 of nothing
std::string scraps_in_words(std::int64_t number);  // a sentence: how many were left aside, and how to have them

// With a full stop, where it does not end in a sign that ends a sentence already: titles may.
std::string ended(std::string text);

}  // namespace report
