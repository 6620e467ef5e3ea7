#include "tune/title_match.h"

#include <algorithm>
#include <array>
#include <utility>

#include "tune/spelling_distance.h"
#include "tune/title.h"
#include "tune/title_tables.h"

namespace tune {

namespace {

// Pieces tried as one title. Source: house choice; a title with more commas than that is not looked for.
constexpr std::size_t kMostPieces = 6;

constexpr std::array<std::string_view, 3> kKinds{"matched", "doubtful", "unmatched"};
constexpr std::array<std::string_view, 6> kLikenesses{"exact",      "words in a row", "words",
                                                      "beginnings", "stands in it",   "spelling"};

std::vector<std::string_view> parts_at(std::string_view text, std::string_view separators) {
    std::vector<std::string_view> parts;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(separators, at), text.size());
        parts.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

// `2 12` of `reel no 2 book 12`: a title with another number is another title.
std::string numbers_of(std::string_view folded) {
    std::string numbers;
    for (const char c : folded) {
        if (c >= '0' && c <= '9')
            numbers += c;
        else if (!numbers.empty() && numbers.back() != ' ')
            numbers += ' ';
    }
    return numbers;
}

// Whether nothing but an article, or nothing to read.
bool says_no_title(std::string_view piece) { return fold_title("x, " + std::string(piece)) == "x"; }

template <typename Candidates>
void cut(Candidates& candidates, std::size_t most) {
    if (candidates.size() > most)
        candidates.erase(candidates.begin() + static_cast<std::ptrdiff_t>(most), candidates.end());
}

std::vector<TitleCandidate> within(int most, std::vector<TitleCandidate> candidates) {
    std::erase_if(candidates, [most](const TitleCandidate& candidate) { return candidate.distance > most; });
    return candidates;
}

// Long enough for one mistake to be nothing but that, and with the same numbers.
bool is_sure(const std::string& folded, const TitleCandidate& candidate) {
    return candidate.distance == 1 && letters_of(candidate.folded).size() >= kSureTitleLetters &&
           numbers_of(candidate.folded) == numbers_of(folded);
}

// Rule 2: whether a part of a title is more than a word as any title may have it.
bool says_enough(const std::string& folded) {
    return words_of(folded).size() > 1 || letters_of(folded).size() >= kSureWordLetters;
}

// Those of tunes that are not there yet.
void append(std::vector<TitleCandidate>& candidates, const std::vector<TitleCandidate>& more) {
    for (const TitleCandidate& candidate : more)
        if (std::none_of(candidates.begin(), candidates.end(),
                         [&](const TitleCandidate& other) { return other.id == candidate.id; }))
            candidates.push_back(candidate);
}

// Rules 3 to 6, for what is neither a title nor part of one.
TitleMatch match_by_spelling(const TitleTables& tables, const std::string& folded) {
    TitleMatch match;
    const Spelling spelling(letters_of(folded));
    const std::size_t length = spelling.letters().size();
    const int near_at_most = static_cast<int>(length / kLettersForMistake);
    // Those a little further decide whether the nearest stands alone.
    const std::vector<TitleCandidate> nearest =
        tables.spelled_like(spelling, std::max(near_at_most + kClearlyNearer - 1, kSureDistance));
    std::vector<TitleCandidate> near = within(near_at_most, nearest);
    const std::vector<TitleCandidate> inside = tables.standing_in(folded);
    const auto next_is_beyond = [&](int distance) { return nearest.size() < 2 || nearest[1].distance > distance; };
    if (!near.empty() && next_is_beyond(near.front().distance + kClearlyNearer - 1)) cut(near, 1);
    if (!near.empty() && inside.empty() && is_sure(folded, near.front()) && next_is_beyond(kSureDistance)) {
        match.kind = MatchKind::matched;
        match.corrected = true;
        match.candidates = near;
        return match;
    }
    const std::vector<TitleCandidate> parts = tables.having_misspelled_part(folded);
    if (near.empty() && inside.empty() && parts.empty()) {
        match.candidates = tables.spelled_like(spelling, static_cast<int>(length / kLettersForHint), kMostSuggestions);
        return match;
    }
    match.corrected = near.empty() && inside.empty() && parts.size() == 1 && says_enough(folded);
    match.kind = match.corrected ? MatchKind::matched : MatchKind::doubtful;
    for (const auto& found : {inside, near, parts}) append(match.candidates, found);
    cut(match.candidates, kMostCandidates);
    return match;
}

TitleMatch match_folded(const TitleTables& tables, const std::string& folded) {
    TitleMatch match;
    if (folded.empty()) return match;
    match.candidates = tables.meant_by(folded);
    if (match.candidates.empty()) match.candidates = tables.exactly(folded);
    const bool is_exact = !match.candidates.empty();
    if (!is_exact) match.candidates = tables.having_part(folded);
    if (match.candidates.empty()) return match_by_spelling(tables, folded);
    const bool is_sure_of_one = match.candidates.size() == 1 && (is_exact || says_enough(folded));
    match.kind = is_sure_of_one ? MatchKind::matched : MatchKind::doubtful;
    return match;
}

// The longest row of pieces from `first` on that is exactly a title, and the articles that belong to a single one.
std::size_t pieces_of_title(const TitleTables& tables, const std::vector<std::string_view>& pieces, std::size_t first) {
    const char* const begin = pieces[first].data();
    for (std::size_t count = std::min(kMostPieces, pieces.size() - first); count > 1; --count) {
        const std::string_view last = pieces[first + count - 1];
        const auto length = static_cast<std::size_t>(last.data() + last.size() - begin);
        if (length <= kMaxWrittenBytes && tables.is_title(fold_title({begin, length}))) return count;
    }
    const bool article_follows = first + 1 < pieces.size() && says_no_title(pieces[first + 1]) &&
                                 !tables.is_title(fold_title(pieces[first + 1]));
    return article_follows ? 2 : 1;
}

}  // namespace

std::string_view to_string(MatchKind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

std::string_view to_string(Likeness likeness) { return kLikenesses[static_cast<std::size_t>(likeness)]; }

TitleIndex::TitleIndex(const std::vector<TitledTune>& tunes) : tables_(std::make_unique<TitleTables>(tunes)) {}
TitleIndex::TitleIndex(TitleIndex&&) noexcept = default;
TitleIndex& TitleIndex::operator=(TitleIndex&&) noexcept = default;
TitleIndex::~TitleIndex() = default;

TitleMatch TitleIndex::match(const std::string& written) const {
    TitleMatch match;
    if (written.size() <= kMaxWrittenBytes) match = match_folded(*tables_, fold_title(written));
    match.written = written;
    return match;
}

std::vector<std::string> TitleIndex::split(std::string_view text) const {
    std::vector<std::string> titles;
    for (const std::string_view line : parts_at(text, ";\n\r")) {
        const std::vector<std::string_view> pieces = parts_at(line, ",");
        for (std::size_t at = 0; at < pieces.size();) {
            if (without_blanks_around(pieces[at]).empty()) {
                ++at;
                continue;
            }
            const std::size_t count = pieces_of_title(*tables_, pieces, at);
            const std::string_view last = pieces[at + count - 1];
            const auto length = static_cast<std::size_t>(last.data() + last.size() - pieces[at].data());
            titles.emplace_back(without_blanks_around({pieces[at].data(), length}));
            at += count;
        }
    }
    return titles;
}

std::vector<TitleMatch> match_titles(const std::vector<std::string>& written, const std::vector<TitledTune>& tunes) {
    const TitleIndex index(tunes);
    std::vector<TitleMatch> matches;
    for (const std::string& title : written) matches.push_back(index.match(title));
    return matches;
}

std::vector<std::string> split_titles(std::string_view text, const std::vector<TitledTune>& tunes) {
    return TitleIndex(tunes).split(text);
}

}  // namespace tune
