// How long the planner may think, and in how much memory, on the command line.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <optional>

#include "planner/goal.h"

namespace cli {

class LimitOptions {
public:
    void add_to(CLI::App& command, const char* group = "Options");

    // Throws Misuse for what is out of range.
    void check() const;
    void apply_to(planner::Limits& limits) const;

private:
    std::optional<double> max_seconds_;
    std::optional<std::int64_t> max_memory_mib_;
};

}  // namespace cli
