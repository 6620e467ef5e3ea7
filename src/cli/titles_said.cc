#include "cli/titles_said.h"

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <iostream>
#include <optional>
#include <sstream>

#include "base/utf8.h"
#include "cli/terminal.h"

namespace cli {

namespace {

std::string in_quotes(const std::string& text) { return "\"" + base::printable(text) + "\""; }

std::optional<tune::TuneId> id_of(const library::Library& library, const std::string& written) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), id);
    if (error != std::errc() || end != written.data() + written.size()) return std::nullopt;
    const auto record = library.tune_by_id({id});
    return record ? std::optional(record->id) : std::nullopt;
}

void list_candidates(const tune::TitleMatch& match, const std::string& label) {
    write_notice("  " + label + in_quotes(match.written) + "\n");
    char letter = 'a';
    for (const tune::TitleCandidate& candidate : match.candidates)
        write_notice("      " + std::string(1, letter++) + "  " + base::printable(candidate.title) + " (tune " +
                     std::to_string(candidate.id.value) + ")\n");
}

void tell_doubtful(const std::vector<tune::TitleMatch>& doubtful) {
    write_notice("gamut: in doubt which tune is meant; left out, say it again by its id:\n");
    for (const tune::TitleMatch& match : doubtful) list_candidates(match, "");
}

// `1a 2c`: the candidate chosen of each; nothing where none was.
std::vector<std::optional<tune::TuneId>> ask(const std::vector<tune::TitleMatch>& doubtful) {
    write_notice("Which tunes are meant?\n");
    for (std::size_t at = 0; at < doubtful.size(); ++at) list_candidates(doubtful[at], std::to_string(at + 1) + "  ");
    write_notice("Such as 1a 2c; what is not named is left out: ");
    std::string line;
    std::getline(std::cin, line);
    std::vector<std::optional<tune::TuneId>> chosen(doubtful.size());
    std::istringstream words(line);
    for (std::string word; words >> word;) {
        std::size_t number = 0;
        const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
        const bool is_pair = error == std::errc() && end + 1 == word.data() + word.size();
        if (!is_pair || number == 0 || number > doubtful.size()) continue;
        const std::vector<tune::TitleCandidate>& candidates = doubtful[number - 1].candidates;
        const auto place = static_cast<std::size_t>(*end - 'a');
        if (*end >= 'a' && place < candidates.size()) chosen[number - 1] = candidates[place].id;
    }
    return chosen;
}

void tell_unknown(const tune::TitleMatch& match) {
    std::string nearest;
    for (const tune::TitleCandidate& candidate : match.candidates)
        nearest += (nearest.empty() ? "; near it: " : ", ") + base::printable(candidate.title);
    write_notice("gamut: no tune is called " + in_quotes(match.written) + nearest + "; left out\n");
}

}  // namespace

TitlesSaid titles_said(const library::Library& library, const std::string& written) {
    const tune::TitleIndex titles(library.titled_tunes());
    TitlesSaid said;
    const auto add = [&](tune::TuneId id) {
        if (std::find(said.tunes.begin(), said.tunes.end(), id) == said.tunes.end()) said.tunes.push_back(id);
    };
    std::vector<tune::TitleMatch> doubtful;
    for (const std::string& title : titles.split(written)) {
        if (const auto id = id_of(library, title)) {
            add(*id);
            continue;
        }
        tune::TitleMatch match = titles.match(title);
        if (match.kind == tune::MatchKind::matched) {
            if (match.corrected)
                write_notice("gamut: " + in_quotes(match.written) + " is taken for " +
                             base::printable(match.candidates.front().title) + "\n");
            add(match.candidates.front().id);
        } else if (match.kind == tune::MatchKind::doubtful) {
            doubtful.push_back(std::move(match));
        } else {
            tell_unknown(match);
            said.are_all_sure = false;
        }
    }
    if (doubtful.empty()) return said;
    if (::isatty(STDIN_FILENO) != 1 || !notices_go_to_terminal()) {
        tell_doubtful(doubtful);
        said.are_all_sure = false;
        return said;
    }
    for (const auto& chosen : ask(doubtful)) {
        if (chosen) add(*chosen);
        said.are_all_sure = said.are_all_sure && chosen;
    }
    return said;
}

}  // namespace cli
