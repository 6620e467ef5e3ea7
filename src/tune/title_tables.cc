// Tested by title_match_test.cc.
#include "tune/title_tables.h"

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>

namespace tune {

namespace {

// What one letter more makes in UTF-8.
constexpr std::size_t kMostBytesInLetter = 4;

bool stand_in_a_row(std::string_view part, std::string_view title) {
    for (std::size_t at = title.find(part); at != std::string_view::npos; at = title.find(part, at + 1)) {
        const bool begins = at == 0 || title[at - 1] == ' ';
        const bool ends = at + part.size() == title.size() || title[at + part.size()] == ' ';
        if (begins && ends) return true;
    }
    return false;
}

// Whether each of the words is (`whole`) or begins a word of its own among the others, of which the first 64 are looked
// at. Taking the longest first never spoils it: where two begin the same word, the shorter begins every word that the
// longer does.
bool each_has_its_own(const std::vector<std::string_view>& longest_first, const std::vector<std::string_view>& others,
                      bool whole) {
    std::uint64_t taken = 0;
    for (const std::string_view word : longest_first) {
        std::size_t own = 0;
        const std::size_t end = std::min<std::size_t>(others.size(), 64);
        while (own < end && ((taken >> own & 1) != 0 || !(whole ? others[own] == word : others[own].starts_with(word))))
            ++own;
        if (own == end) return false;
        taken |= std::uint64_t{1} << own;
    }
    return true;
}

bool has_digit(std::string_view word) { return word.find_first_of("0123456789") != std::string_view::npos; }

}  // namespace

std::vector<std::string_view> words_of(std::string_view folded) {
    std::vector<std::string_view> words;
    for (std::size_t at = 0; at < folded.size();) {
        const std::size_t end = std::min(folded.find(' ', at), folded.size());
        if (end > at) words.push_back(folded.substr(at, end - at));
        at = end + 1;
    }
    return words;
}

TitleTables::TitleTables(const std::vector<TitledTune>& tunes) {
    for (const TitledTune& tune : tunes) {
        const std::set<std::string> titles(tune.folded.begin(), tune.folded.end());
        for (const std::string& folded : titles) {
            if (folded.empty()) continue;
            names_.push_back({tunes_.size(), folded, letters_of(folded), {}});
        }
        for (const std::string& alias : tune.aliases) meant_.emplace(alias, tunes_.size());
        tunes_.emplace_back(tune.id, tune.title);
    }
    for (std::size_t name = 0; name < names_.size(); ++name) {
        const auto& [tune, folded, letters, words] = names_[name];
        names_[name].words = words_of(folded);
        by_title_[folded].push_back(name);
        for (const std::string_view word : words) by_word_.emplace_back(word, name);
        if (by_length_.size() <= letters.size()) by_length_.resize(letters.size() + 1);
        by_length_[letters.size()].push_back({LetterCounts(letters), name});
        longest_bytes_ = std::max(longest_bytes_, folded.size());
    }
    std::sort(by_word_.begin(), by_word_.end());
    by_word_.erase(std::unique(by_word_.begin(), by_word_.end()), by_word_.end());
    for (std::size_t at = 0; at < by_word_.size(); ++at) {
        const std::string_view word = by_word_[at].first;
        if ((at > 0 && by_word_[at - 1].first == word) || has_digit(word)) continue;
        const std::u32string letters = letters_of(word);
        if (letters.size() < kSureWordLetters) continue;
        if (words_by_length_.size() <= letters.size()) words_by_length_.resize(letters.size() + 1);
        words_by_length_[letters.size()].push_back({LetterCounts(letters), word});
    }
}

class TitleTables::Shortlist {
public:
    Shortlist(const TitleTables& tables, std::size_t how_many) : tables_(tables), how_many_(how_many) {}

    void offer(std::size_t name, Likeness likeness, int distance) {
        const Offer offer{name, likeness, distance};
        if (offers_.size() == how_many_ && !comes_before(offer, offers_.back())) return;
        const auto same = std::find_if(offers_.begin(), offers_.end(), [&](const Offer& other) {
            return tables_.names_[other.name].tune == tables_.names_[name].tune;
        });
        if (same != offers_.end()) {
            if (!comes_before(offer, *same)) return;
            offers_.erase(same);
        }
        const auto before = [this](const Offer& one, const Offer& other) { return comes_before(one, other); };
        offers_.insert(std::upper_bound(offers_.begin(), offers_.end(), offer, before), offer);
        if (offers_.size() > how_many_) offers_.pop_back();
    }

    void clear() { offers_.clear(); }

    // No offer further than this gets in.
    int bound(int most) const { return offers_.size() < how_many_ ? most : offers_.back().distance; }

    std::vector<TitleCandidate> candidates() const {
        std::vector<TitleCandidate> candidates;
        for (const auto& [name, likeness, distance] : offers_) {
            const auto& [id, title] = tables_.tunes_[tables_.names_[name].tune];
            candidates.push_back({id, title, tables_.names_[name].folded, likeness, distance});
        }
        return candidates;
    }

private:
    struct Offer {
        std::size_t name;
        Likeness likeness;
        int distance;
    };

    bool comes_before(const Offer& one, const Offer& other) const {
        if (one.likeness != other.likeness) return one.likeness < other.likeness;
        if (one.distance != other.distance) return one.distance < other.distance;
        const Name& name = tables_.names_[one.name];
        const Name& other_name = tables_.names_[other.name];
        const auto& [id, title] = tables_.tunes_[name.tune];
        const auto& [other_id, other_title] = tables_.tunes_[other_name.tune];
        return std::tie(title, id, name.folded) < std::tie(other_title, other_id, other_name.folded);
    }

    const TitleTables& tables_;
    std::size_t how_many_;
    std::vector<Offer> offers_;
};

std::vector<TitleCandidate> TitleTables::meant_by(const std::string& folded) const {
    const auto found = meant_.find(folded);
    if (found == meant_.end()) return {};
    const auto& [id, title] = tunes_[found->second];
    return {{id, title, folded, Likeness::exact, 0}};
}

std::vector<TitleCandidate> TitleTables::exactly(const std::string& folded) const {
    const auto found = by_title_.find(folded);
    if (found == by_title_.end()) return {};
    Shortlist shortlist(*this, kMostCandidates);
    for (const std::size_t name : found->second) shortlist.offer(name, Likeness::exact, 0);
    return shortlist.candidates();
}

std::pair<TitleTables::WordPlace, TitleTables::WordPlace> TitleTables::beginning_so(std::string_view word) const {
    const std::string past = std::string(word) + '\xFF';
    const WordPlace begin = std::lower_bound(by_word_.begin(), by_word_.end(), std::pair(word, std::size_t{0}));
    return {begin, std::lower_bound(begin, by_word_.end(), std::pair(std::string_view(past), std::size_t{0}))};
}

void TitleTables::find_part(std::string_view folded, Likeness& strongest, Shortlist& found) const {
    std::vector<std::string_view> words = words_of(folded);
    if (words.empty()) return;
    std::stable_sort(words.begin(), words.end(), [](auto one, auto other) { return one.size() > other.size(); });
    // The names to look at are those with the word that begins the fewest.
    std::optional<std::pair<WordPlace, WordPlace>> fewest;
    for (const std::string_view word : words) {
        const auto [begin, end] = beginning_so(word);
        if (!fewest || end - begin < fewest->second - fewest->first) fewest = {begin, end};
    }
    const int letters = static_cast<int>(letters_of(folded).size());
    for (WordPlace place = fewest->first; place != fewest->second; ++place) {
        const Name& name = names_[place->second];
        std::optional<Likeness> likeness;
        if (stand_in_a_row(folded, name.folded)) {
            likeness = Likeness::words_in_a_row;
        } else if (strongest >= Likeness::words) {
            if (each_has_its_own(words, name.words, true))
                likeness = Likeness::words;
            else if (strongest >= Likeness::beginnings && each_has_its_own(words, name.words, false))
                likeness = Likeness::beginnings;
        }
        if (!likeness || *likeness > strongest) continue;
        if (*likeness < strongest) found.clear();
        strongest = *likeness;
        found.offer(place->second, *likeness, static_cast<int>(name.letters.size()) - letters);
    }
}

std::vector<TitleCandidate> TitleTables::having_part(std::string_view folded) const {
    Likeness strongest = Likeness::beginnings;
    Shortlist found(*this, kMostCandidates);
    find_part(folded, strongest, found);
    return found.candidates();
}

std::vector<std::string_view> TitleTables::words_like(std::string_view word) const {
    std::vector<std::string_view> like;
    const Spelling written(letters_of(word));
    const LetterCounts counts(written.letters());
    const std::size_t length = written.letters().size();
    for (std::size_t other = std::max<std::size_t>(length, 1) - 1; other <= length + 1; ++other) {
        if (other >= words_by_length_.size()) break;
        for (const CountedWord& counted : words_by_length_[other])
            if (counts.least_distance(counted.counts) <= 1 && written.distance_to(letters_of(counted.word), 1) == 1)
                like.push_back(counted.word);
    }
    return like;
}

std::vector<TitleCandidate> TitleTables::having_misspelled_part(std::string_view folded) const {
    if (folded.size() > longest_bytes_ + kMostBytesInLetter) return {};
    const std::vector<std::string_view> words = words_of(folded);
    const auto begins_none = [this](std::string_view word) {
        const auto [begin, end] = beginning_so(word);
        return begin == end;
    };
    const auto unknown = std::count_if(words.begin(), words.end(), begins_none);
    if (unknown > 1) return {};  // each of them would have a mistake
    Likeness strongest = Likeness::beginnings;
    Shortlist found(*this, kMostCandidates);
    for (const std::string_view word : words) {
        if ((unknown == 1 && !begins_none(word)) || has_digit(word)) continue;
        const auto at = static_cast<std::size_t>(word.data() - folded.data());
        for (const std::string_view right : words_like(word))
            find_part(std::string(folded).replace(at, word.size(), right), strongest, found);
    }
    std::vector<TitleCandidate> candidates = found.candidates();
    for (TitleCandidate& candidate : candidates) {
        candidate.likeness = Likeness::spelling;
        candidate.distance = 1;
    }
    return candidates;
}

std::vector<TitleCandidate> TitleTables::spelled_like(const Spelling& written, int most, std::size_t how_many) const {
    const LetterCounts counts(written.letters());
    const int length = static_cast<int>(written.letters().size());
    Shortlist nearest(*this, how_many);
    const auto look_at = [&](const Counted& counted) {
        const int bound = nearest.bound(most);
        if (counts.least_distance(counted.counts) > bound) return;
        const int distance = written.distance_to(names_[counted.name].letters, bound);
        if (distance <= bound) nearest.offer(counted.name, Likeness::spelling, distance);
    };
    // Titles of like length first, so that the bound soon leaves most of the others out.
    for (int apart = 0; apart <= nearest.bound(most); ++apart)
        for (const int other : apart == 0 ? std::vector{length} : std::vector{length - apart, length + apart})
            if (other > 0 && other < static_cast<int>(by_length_.size()))
                for (const Counted& counted : by_length_[static_cast<std::size_t>(other)]) look_at(counted);
    return nearest.candidates();
}

std::vector<TitleCandidate> TitleTables::standing_in(std::string_view folded) const {
    const std::vector<std::string_view> words = words_of(folded);
    const int letters = static_cast<int>(letters_of(folded).size());
    Shortlist found(*this, kMostCandidates);
    for (std::size_t first = 0; first < words.size(); ++first) {
        std::string row;
        for (std::size_t last = first; last < words.size(); ++last) {
            if (!row.empty()) row += ' ';
            row += words[last];
            if (row.size() > longest_bytes_) break;
            const auto names = by_title_.find(row);
            if (names == by_title_.end()) continue;
            const int row_letters = static_cast<int>(letters_of(row).size());
            if (first == last && row_letters < static_cast<int>(kSureWordLetters)) continue;
            for (const std::size_t name : names->second)
                found.offer(name, Likeness::stands_in_it, letters - row_letters);
        }
    }
    return found.candidates();
}

}  // namespace tune
