// `--beside` on the command line: a second tune, bar beside bar with the first.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "library/library.h"
#include "report/beside_page.h"

namespace cli {

class BesideOption {
public:
    void add_to(CLI::App& command);
    bool is_given() const { return which_.has_value(); }

    // `which` and the second tune as setting_named takes them. Nothing, with a notice, where there is no such tune or
    // one of the two has no music to show. Throws Misuse where several are meant.
    std::optional<report::BesidePage> answer(const collection::Collection& library, const std::string& which) const;

private:
    std::optional<std::string> which_;
};

}  // namespace cli
