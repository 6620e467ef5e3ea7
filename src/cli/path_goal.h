// What the teacher insists on and what a tune weighs, on the command line of `gamut path`.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/path.h"
#include "cli/limit_options.h"

namespace cli {

class PathGoal {
public:
    void add_to(CLI::App& command);

    // Throws Misuse with one sentence for what cannot be understood, base::Failure for a file that cannot be read.
    void apply_to(answers::PathQuestion& question) const;

private:
    void check() const;

    std::optional<std::string> first_, avoid_, order_, effort_file_;
    std::vector<std::pair<std::string, std::string>> before_;
    std::vector<std::string> groups_, must_, tag_weights_;
    std::string by_ = "pitch", weight_by_ = "equal", effort_ = "equal";
    std::optional<std::int64_t> steps_, best_in_;
    LimitOptions limits_;
};

}  // namespace cli
