#include "cli/match_option.h"

#include <algorithm>
#include <iostream>
#include <iterator>
#include <map>
#include <utility>

#include "answers/tunes_asked.h"
#include "base/failure.h"
#include "base/file_bytes.h"
#include "base/source_file.h"
#include "cli/refusal_words.h"
#include "cli/terminal.h"
#include "tune/title_list.h"
#include "tune/title_match.h"

namespace cli {

namespace {

std::string bytes_of(const std::string& file) {
    if (file != "-") return base::read_bytes(file);
    std::string bytes{std::istreambuf_iterator<char>(std::cin), std::istreambuf_iterator<char>()};
    if (std::cin.bad()) throw base::Failure("read", "standard input", "reading stopped");
    return bytes;
}

void tell_decoded(const std::string& file, const std::vector<tune::ListedTitle>& list) {
    const auto is_older = [](const tune::ListedTitle& listed) { return !listed.is_utf8; };
    const auto first = std::find_if(list.begin(), list.end(), is_older);
    if (first == list.end()) return;
    const auto lines = std::count_if(first, list.end(), is_older);
    write_notice("gamut: " + file + ":" + std::to_string(first->line) + ": " +
                 (lines == 1 ? "this line is" : std::to_string(lines) + " lines, this the first, are") +
                 " not UTF-8; read as Windows-1252\n");
}

// A line is one title, unless it is not surely that and each of its parts between commas surely is one.
std::vector<tune::TitleMatch> matches_of(const tune::TitleIndex& index, const std::string& line) {
    const auto is_sure = [](const tune::TitleMatch& match) { return match.kind == tune::MatchKind::matched; };
    const tune::TitleMatch whole = index.match(line);
    if (is_sure(whole) || line.size() > tune::kMaxWrittenBytes) return {whole};
    std::vector<tune::TitleMatch> parts;
    for (const std::string& part : index.split(line)) {
        parts.push_back(index.match(part));
        if (!is_sure(parts.back())) return {whole};
    }
    return parts.size() > 1 ? parts : std::vector{whole};
}

}  // namespace

void MatchOption::add_to(CLI::App& command) {
    command
        .add_option("--match", file_,
                    "which of the titles in FILE, one a line, are in the library (- reads standard input); with --fits "
                    "or --instrument also which of them fit")
        ->type_name("FILE");
}

report::MatchPage MatchOption::answer(const collection::Collection& library, const FilterOptions& typed) const {
    report::MatchPage page;
    if (file_->empty()) throw Misuse("--match needs a file; - reads standard input");
    page.file = *file_ == "-" ? "standard input" : *file_;
    const std::string bytes = bytes_of(*file_);
    if (base::looks_binary(bytes)) throw base::Failure("read", page.file, "it is no text file");
    const std::vector<tune::ListedTitle> list = tune::read_title_list(bytes);
    tell_decoded(page.file, list);

    const answers::Filter filter = typed.filter();
    const answers::TunesAsked asked(library, filter);
    collection::Selection selection = asked.selection();
    tell_left_out(asked.left_out());
    if (selection.settings) throw Misuse("--match tells of tunes; leave out --settings");
    page.have = selection.missing ? std::optional(selection.missing->have) : selection.fits;
    selection.fits.reset();
    collection::Answer passing = library.select_tunes(selection);
    page.why = asked.sieves_of(passing);
    std::map<tune::TuneId, tune::TuneRecord> passes;
    for (tune::TuneRecord& record : passing.rows) passes.emplace(record.id, std::move(record));

    const tune::TitleIndex index(library.titled_tunes());
    for (const tune::ListedTitle& listed : list)
        for (tune::TitleMatch& match : matches_of(index, listed.text)) {
            report::MatchedLine& line = page.lines.emplace_back();
            line.line = listed.line;
            line.match = std::move(match);
            if (line.match.kind != tune::MatchKind::matched) continue;
            const tune::TuneId id = line.match.candidates.front().id;
            const auto passed = passes.find(id);
            line.is_left_out = passed == passes.end();
            line.tune = line.is_left_out ? library.tune_by_id(id) : std::optional(passed->second);
        }
    return page;
}

}  // namespace cli
