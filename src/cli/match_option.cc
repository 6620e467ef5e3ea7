#include "cli/match_option.h"

#include <iostream>
#include <iterator>
#include <map>
#include <utility>

#include "base/failure.h"
#include "base/source_file.h"
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

}  // namespace

void MatchOption::add_to(CLI::App& command) {
    command
        .add_option("--match", file_,
                    "which of the titles in FILE, one a line, are in the library (- reads standard input); with --fits "
                    "or --instrument also which of them fit")
        ->type_name("FILE");
}

report::MatchPage MatchOption::answer(const library::Library& library, const FilterOptions& filter) const {
    report::MatchPage page;
    page.file = *file_ == "-" ? "standard input" : *file_;
    std::string bytes = bytes_of(*file_);
    if (base::looks_binary(bytes)) throw base::Failure("read", page.file, "it is no text file");
    const base::SourceFile list = base::decode_source(page.file, std::move(bytes));

    library::Selection selection = filter.selection();
    if (selection.settings) throw Misuse("--match tells of tunes; leave out --settings");
    page.have = selection.missing ? std::optional(selection.missing->have) : selection.fits;
    selection.fits.reset();
    library::Answer passing = library.select_tunes(selection);
    page.why = filter.sieves_of(passing);
    std::map<tune::TuneId, tune::TuneRecord> passes;
    for (tune::TuneRecord& record : passing.rows) passes.emplace(record.id, std::move(record));

    const tune::TitleIndex index(library.titled_tunes());
    for (const tune::ListedTitle& listed : tune::read_title_list(list.text())) {
        report::MatchedLine& line = page.lines.emplace_back();
        line.line = listed.line;
        line.match = index.match(listed.text);
        if (line.match.kind != tune::MatchKind::matched) continue;
        const tune::TuneId id = line.match.candidates.front().id;
        const auto passed = passes.find(id);
        line.is_left_out = passed == passes.end();
        line.tune = line.is_left_out ? library.tune_by_id(id) : std::optional(passed->second);
    }
    return page;
}

}  // namespace cli
