#include "cli/titles_said.h"

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <iostream>
#include <optional>

#include "base/utf8.h"
#include "cli/terminal.h"
#include "library/marks.h"
#include "tune/title_choice.h"

namespace cli {

namespace {

std::string in_quotes(const std::string& text) { return "\"" + base::printable(text) + "\""; }

std::optional<tune::TuneId> id_of(const collection::Collection& library, const std::string& written) {
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
    std::vector<const tune::TitleMatch*> several;
    for (const tune::TitleMatch& match : doubtful) {
        if (match.candidates.size() != 1) {
            several.push_back(&match);
            continue;
        }
        const tune::TitleCandidate& one = match.candidates.front();
        const std::string id = std::to_string(one.id.value);
        write_notice("gamut: " + in_quotes(match.written) + ": is " + base::printable(one.title) + " (" + id +
                     ") meant? then say " + id + "; left out\n");
    }
    if (several.empty()) return;
    write_notice("gamut: in doubt which tune is meant; left out, say it again by its id:\n");
    for (const tune::TitleMatch* match : several) list_candidates(*match, "");
}

std::string all_in_quotes(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words) list += (list.empty() ? "" : ", ") + in_quotes(word);
    return list;
}

// What came to nothing of an answer, in one sentence; nothing where all was chosen and understood.
void tell_lost(const tune::TitleChoice& choice, const std::vector<tune::TitleMatch>& doubtful) {
    std::vector<std::string> left_out;
    for (std::size_t at = 0; at < doubtful.size(); ++at)
        if (!choice.chosen[at]) left_out.push_back(doubtful[at].written);
    std::string sentence;
    const auto tell = [&](const char* what, const std::vector<std::string>& words) {
        if (!words.empty()) sentence += (sentence.empty() ? "gamut: " : "; ") + (what + all_in_quotes(words));
    };
    tell("not understood: ", choice.not_understood);
    tell("a first answer counts, so this does not: ", choice.second);
    tell("left out: ", left_out);
    if (!sentence.empty()) write_notice(sentence + "\n");
}

// The candidate chosen of each; nothing where none was.
std::vector<std::optional<tune::TuneId>> ask(const std::vector<tune::TitleMatch>& doubtful) {
    const bool is_one = doubtful.size() == 1;
    write_notice(is_one ? "Which tune is meant?\n" : "Which tunes are meant?\n");
    for (std::size_t at = 0; at < doubtful.size(); ++at)
        list_candidates(doubtful[at], is_one ? "" : std::to_string(at + 1) + "  ");
    write_notice("Such as " + tune::example_of_choice(doubtful) + ", or " + (is_one ? "its id" : "their ids") +
                 "; what is not named is left out: ");
    std::string line;
    if (!std::getline(std::cin, line)) write_notice("\n");
    const tune::TitleChoice choice = tune::read_title_choice(line, doubtful);
    tell_lost(choice, doubtful);
    return choice.chosen;
}

void tell_unknown(const tune::TitleMatch& match) {
    std::string nearest;
    for (const tune::TitleCandidate& candidate : match.candidates)
        nearest += (nearest.empty() ? "; near it: " : ", ") + base::printable(candidate.title);
    write_notice("gamut: no tune is called " + in_quotes(match.written) + nearest + "; left out\n");
}

}  // namespace

TitlesSaid titles_said(const collection::Collection& library, const std::string& written) {
    const tune::TitleIndex titles(library.titled_tunes());
    TitlesSaid said;
    const auto add = [&](tune::TuneId id) {
        if (std::find(said.tunes.begin(), said.tunes.end(), id) == said.tunes.end()) said.tunes.push_back(id);
    };
    std::vector<tune::TitleMatch> doubtful;
    for (const std::string& title : titles.split(written)) {
        said.names_any = true;
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
    const std::vector<std::optional<tune::TuneId>> chosen = ask(doubtful);
    for (std::size_t at = 0; at < chosen.size(); ++at) {
        if (chosen[at]) {
            add(*chosen[at]);
            said.settled.emplace_back(doubtful[at].written, *chosen[at]);
        }
        said.are_all_sure = said.are_all_sure && chosen[at];
    }
    return said;
}

void keep_settled(const std::filesystem::path& file, const TitlesSaid& said) {
    if (said.settled.empty()) return;
    library::Marks marks = library::Marks::change(file, today());
    std::string told;
    for (const auto& [written, tune] : said.settled) {
        marks.set_alias(tune, written);
        told += (told.empty() ? "" : ", ") + in_quotes(written) + " means " + std::to_string(tune.value);
    }
    marks.commit();
    write_notice("gamut: from now on " + told + "; gamut mark ID --no-alias TEXT takes it back\n");
}

}  // namespace cli
