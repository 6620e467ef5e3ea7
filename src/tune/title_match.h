// Titles as somebody typed them somewhere else, against the titles of a library.
//
// All is compared as fold_title leaves it: case, accents, punctuation and an article in front or behind do not count.
// The rules, in this order; the first that finds anything decides. All of them are house choices.
//   0. A person said which tune it means: matched.
//   1. It is exactly a title: of one tune, matched; of several, doubtful.
//   2. It is part of a title: its words stand there one after another; failing that, in another order; failing that,
//      each begins a word of the title (`rai slip` for Rain on the Slipway). A single tune is matched if what was
//      written has two words or more, or one of kSureWordLetters; else, and with several tunes, doubtful.
//   3. Its spelling is near: at most one mistake in kLettersForMistake letters (see spelling_distance.h). Doubtful; the
//      nearest alone where the next is kClearlyNearer mistakes further. Only one case is matched, and flagged as
//      corrected: a single mistake against a title of kSureTitleLetters or more, no other tune within
//      kSureDistance mistakes, the same numbers in both, and rule 4 finding nothing.
//   4. A title stands in it whole, one after another (`Ferry, reel in G` for The Ferry): doubtful, before those of 3.
//   5. With a single mistake in one word it is part of a title, as by 2: that word stands in the title whole and has
//      kSureWordLetters or more there, and neither has a digit in it. Told with what 3 and 4 find, behind it, if they
//      find anything: then doubtful. Else a single tune is matched, and flagged as corrected, if what was written says
//      enough by 2; else, and with several tunes, doubtful.
//   6. Unmatched, with the nearest suggestions, at most one mistake in kLettersForHint letters.
// The same titles and the same writing give the same answer, whatever the order of the tunes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "tune/record.h"

namespace tune {

constexpr std::size_t kSureWordLetters = 5;
constexpr std::size_t kSureTitleLetters = 8;
constexpr std::size_t kLettersForMistake = 5;
constexpr std::size_t kLettersForHint = 3;
constexpr int kClearlyNearer = 2;
constexpr int kSureDistance = 3;
constexpr std::size_t kMostCandidates = 5;
constexpr std::size_t kMostSuggestions = 3;
// Longer writing is no title: it is unmatched without being looked at. In bytes.
constexpr std::size_t kMaxWrittenBytes = 1000;

struct TitledTune {
    TuneId id;                           // each stands in a list once
    std::string title;                   // as shown, the first
    std::vector<std::string> folded;     // all its titles, by fold_title; empty ones are passed over
    std::vector<std::string> aliases{};  // what a person said that it means this tune, by fold_title
};

enum class MatchKind : std::uint8_t { matched, doubtful, unmatched };

// What a candidate has to do with what was written; the nearer comes first.
enum class Likeness : std::uint8_t { exact, words_in_a_row, words, beginnings, stands_in_it, spelling };

std::string_view to_string(MatchKind kind);
std::string_view to_string(Likeness likeness);  // `exact`, `words in a row`, `words`, `beginnings`, ...

struct TitleCandidate {
    TuneId id;
    std::string title;   // of the tune, as shown
    std::string folded;  // the one of its titles that was found, by fold_title
    Likeness likeness = Likeness::exact;
    int distance = 0;  // spelling: mistakes; else the letters the title has more (`stands_in_it`: fewer)

    friend bool operator==(const TitleCandidate&, const TitleCandidate&) = default;
};

struct TitleMatch {
    std::string written;  // as it came
    MatchKind kind = MatchKind::unmatched;
    bool corrected = false;                  // matched by spelling, whole or in part
    std::vector<TitleCandidate> candidates;  // the one when matched; else the best first, at most kMostCandidates
                                             // when doubtful, kMostSuggestions when unmatched

    friend bool operator==(const TitleMatch&, const TitleMatch&) = default;
};

class TitleTables;

// Titles made ready for being asked for. Keeps its own copies.
class TitleIndex {
public:
    explicit TitleIndex(const std::vector<TitledTune>& tunes);
    TitleIndex(TitleIndex&&) noexcept;
    TitleIndex& operator=(TitleIndex&&) noexcept;
    ~TitleIndex();

    TitleMatch match(const std::string& written) const;

    // The titles of `title, title; title`, parted at commas, semicolons and line ends, blanks around them left out,
    // empty ones dropped. A comma stays where it belongs to a title of the library: of several pieces parted by commas
    // the longest row that is exactly a title is one, and an article alone belongs to what stands before it (`Ferry,
    // The`).
    std::vector<std::string> split(std::string_view text) const;

private:
    std::unique_ptr<const TitleTables> tables_;
};

// The same for a single list.
std::vector<TitleMatch> match_titles(const std::vector<std::string>& written, const std::vector<TitledTune>& tunes);
std::vector<std::string> split_titles(std::string_view text, const std::vector<TitledTune>& tunes);

}  // namespace tune
