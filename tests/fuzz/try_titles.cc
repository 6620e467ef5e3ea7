#include <algorithm>
#include <cstddef>
#include <set>
#include <vector>

#include "base/invariant.h"
#include "base/utf8.h"
#include "targets.h"
#include "tune/title.h"
#include "tune/title_choice.h"
#include "tune/title_list.h"
#include "tune/title_match.h"

namespace fuzz {

namespace {

// Up to a line that is `sign` and nothing else; that line is dropped.
std::string_view taken_up_to(std::string_view& rest, char sign) {
    for (std::size_t from = 0; from < rest.size();) {
        const std::size_t end = std::min(rest.find('\n', from), rest.size());
        if (end == from + 1 && rest[from] == sign) {
            const std::string_view part = rest.substr(0, from);
            rest.remove_prefix(std::min(end + 1, rest.size()));
            return part;
        }
        from = end + 1;
    }
    const std::string_view all = rest;
    rest = {};
    return all;
}

std::vector<tune::ListedTitle> listed(std::string_view part) {
    std::vector<tune::ListedTitle> titles = tune::read_title_list(part);
    const auto lines = static_cast<std::uint32_t>(std::count(part.begin(), part.end(), '\n') +
                                                  std::count(part.begin(), part.end(), '\r') + 1);
    std::uint32_t last = 0;
    for (const tune::ListedTitle& title : titles) {
        INVARIANT(!title.text.empty() && base::is_utf8(title.text));
        INVARIANT(title.line > last && title.line <= lines);
        last = title.line;
    }
    return titles;
}

void check_match(const tune::TitleMatch& match, std::size_t tunes) {
    const std::size_t count = match.candidates.size();
    std::set<std::int64_t> ids;
    for (const tune::TitleCandidate& candidate : match.candidates) {
        INVARIANT(candidate.id.value >= 1 && candidate.id.value <= static_cast<std::int64_t>(tunes));
        INVARIANT(ids.insert(candidate.id.value).second);
        INVARIANT(candidate.distance >= 0);
    }
    switch (match.kind) {
        case tune::MatchKind::matched:
            INVARIANT(count == 1);
            break;
        case tune::MatchKind::doubtful:
            INVARIANT(count >= 1 && count <= tune::kMostCandidates);
            break;
        case tune::MatchKind::unmatched:
            INVARIANT(count <= tune::kMostSuggestions);
    }
    INVARIANT(!match.corrected || match.kind == tune::MatchKind::matched);
}

void check_choice(const std::string& answer, const std::vector<tune::TitleMatch>& questions) {
    const tune::TitleChoice choice = tune::read_title_choice(answer, questions);
    INVARIANT(choice.chosen.size() == questions.size());
    for (std::size_t at = 0; at < questions.size(); ++at) {
        const auto& candidates = questions[at].candidates;
        INVARIANT(!choice.chosen[at] || std::any_of(candidates.begin(), candidates.end(), [&](const auto& candidate) {
            return candidate.id == *choice.chosen[at];
        }));
    }
    for (const std::string& word : choice.not_understood) INVARIANT(answer.find(word.front()) != std::string::npos);
}

}  // namespace

void try_titles(const std::string& bytes) {
    std::string_view rest = bytes;
    std::vector<tune::TitledTune> tunes;
    for (const tune::ListedTitle& title : listed(taken_up_to(rest, '?')))
        tunes.push_back({{static_cast<std::int64_t>(tunes.size() + 1)}, title.text, {tune::fold_title(title.text)}});
    std::vector<std::string> written;
    for (const tune::ListedTitle& title : listed(taken_up_to(rest, '!'))) written.push_back(title.text);
    for (const tune::TitledTune& tune : tunes) {
        INVARIANT(base::is_utf8(tune.folded.front()));
        INVARIANT(tune::without_blanks_around(tune.folded.front()) == tune.folded.front());
        written.push_back(tune.title);
    }

    const std::vector<tune::TitleMatch> matches = tune::match_titles(written, tunes);
    INVARIANT(matches.size() == written.size());
    for (std::size_t at = 0; at < matches.size(); ++at) {
        INVARIANT(matches[at].written == written[at]);
        check_match(matches[at], tunes.size());
    }
    // A title of the library, as it is shown there, is exactly a title.
    for (std::size_t at = 0; at < tunes.size(); ++at) {
        const tune::TitleMatch& match = matches[matches.size() - tunes.size() + at];
        if (tunes[at].folded.front().empty() || tunes[at].title.size() > tune::kMaxWrittenBytes) continue;
        INVARIANT(!match.candidates.empty() && match.candidates.front().likeness == tune::Likeness::exact);
    }
    std::reverse(tunes.begin(), tunes.end());
    INVARIANT(matches == tune::match_titles(written, tunes));
    for (const std::string& piece : tune::split_titles(bytes, tunes)) INVARIANT(!piece.empty());

    std::vector<tune::TitleMatch> questions;
    std::copy_if(matches.begin(), matches.end(), std::back_inserter(questions),
                 [](const tune::TitleMatch& match) { return match.kind == tune::MatchKind::doubtful; });
    if (questions.empty()) return;
    check_choice(std::string(rest), questions);
    const tune::TitleChoice example = tune::read_title_choice(tune::example_of_choice(questions), questions);
    INVARIANT(example.not_understood.empty() && example.second.empty());
    INVARIANT(example.chosen.front().has_value());
}

}  // namespace fuzz
