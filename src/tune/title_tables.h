// The titles of a library, arranged for being looked up: whole, by the beginnings of their words, by their letters.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "tune/spelling_distance.h"
#include "tune/title_match.h"

namespace tune {

// The words of a folded title.
std::vector<std::string_view> words_of(std::string_view folded);

class TitleTables {
public:
    explicit TitleTables(const std::vector<TitledTune>& tunes);
    // Views into the titles are kept.
    TitleTables(const TitleTables&) = delete;
    TitleTables& operator=(const TitleTables&) = delete;

    // The one of which a person said so; none where nobody did.
    std::vector<TitleCandidate> meant_by(const std::string& folded) const;

    // Each returns the best kMostCandidates tunes, the best first; none for empty writing. Ties are parted by title,
    // then id.
    std::vector<TitleCandidate> exactly(const std::string& folded) const;
    // Tunes with a title of which this is part, by the strongest likeness there is.
    std::vector<TitleCandidate> having_part(std::string_view folded) const;
    // Tunes of whose titles it is part once a single mistake in one of its words is put right, by rule 5 of
    // title_match.h; by the strongest likeness there is, told as spelling.
    std::vector<TitleCandidate> having_misspelled_part(std::string_view folded) const;
    // The nearest by spelling, `how_many` at most, within `most` mistakes.
    std::vector<TitleCandidate> spelled_like(const Spelling& written, int most,
                                             std::size_t how_many = kMostCandidates) const;
    // Tunes with a title that stands in this, of two words or kSureWordLetters letters at least.
    std::vector<TitleCandidate> standing_in(std::string_view folded) const;

    // Or what a person writes for a tune.
    bool is_title(const std::string& folded) const { return by_title_.contains(folded) || meant_.contains(folded); }
    std::size_t longest_bytes() const noexcept { return longest_bytes_; }

private:
    struct Name {  // a title of a tune
        std::size_t tune;
        std::string folded;
        std::u32string letters;
        std::vector<std::string_view> words;
    };

    struct Counted {
        LetterCounts counts;
        std::size_t name;
    };

    struct CountedWord {
        LetterCounts counts;
        std::string_view word;
    };

    using WordPlace = std::vector<std::pair<std::string_view, std::size_t>>::const_iterator;

    // The best of the tunes that were offered, each once.
    class Shortlist;

    // Where in by_word_ the words stand that begin so.
    std::pair<WordPlace, WordPlace> beginning_so(std::string_view word) const;
    // Offers the names of which this is part, if it is by a likeness as strong as `strongest`, which rises with them.
    void find_part(std::string_view folded, Likeness& strongest, Shortlist& found) const;
    // Words of titles, of kSureWordLetters or more, that are one mistake away.
    std::vector<std::string_view> words_like(std::string_view word) const;

    std::vector<std::pair<TuneId, std::string>> tunes_;   // id, title as shown
    std::unordered_map<std::string, std::size_t> meant_;  // into tunes_; looked up, never walked
    std::vector<Name> names_;
    std::unordered_map<std::string, std::vector<std::size_t>> by_title_;  // names; looked up, never walked
    std::vector<std::pair<std::string_view, std::size_t>> by_word_;       // ascending: word, name
    std::vector<std::vector<Counted>> by_length_;                         // names by their number of letters
    std::vector<std::vector<CountedWord>> words_by_length_;               // those of rule 5, each once
    std::size_t longest_bytes_ = 0;
};

}  // namespace tune
