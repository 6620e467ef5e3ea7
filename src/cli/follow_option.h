// `--after TUNE` on the command line: what follows it well in a set.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>

#include "cli/filter_options.h"
#include "library/library.h"
#include "report/follow_page.h"

namespace cli {

class FollowOption {
public:
    void add_to(CLI::App& command);
    bool is_given() const { return first_.has_value(); }

    // Nothing when there is no such tune, which is then told. Throws Misuse where several are meant, and where the tune
    // has no note.
    report::FollowPage answer(const collection::Collection& library, const FilterOptions& filter,
                              const ListOptions& list) const;

private:
    std::optional<std::string> first_;
};

}  // namespace cli
