// `--match FILE` on the command line: titles from somewhere else.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "cli/filter_options.h"
#include "library/library.h"
#include "report/match_page.h"

namespace cli {

class MatchOption {
public:
    void add_to(CLI::App& command);
    bool is_given() const { return file_.has_value(); }

    // What the library has of the listed titles. The notes of the filter are told, not asked for; its other parts leave
    // tunes out. Throws base::Failure for a file that cannot be read or is no text.
    report::MatchPage answer(const collection::Collection& library, const FilterOptions& filter) const;

private:
    std::optional<std::string> file_;
};

}  // namespace cli
