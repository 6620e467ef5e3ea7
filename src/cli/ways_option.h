// `--ways steady|any` on the command line: whether a note keeps one way through a tune.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "instruments/instrument.h"

namespace cli {

class WaysOption {
public:
    void add_to(CLI::App& command);

    bool is_given() const noexcept { return word_.has_value(); }

    bool are_any() const;  // throws Misuse for a word that is none

    // `instrument` as it is to be judged; null for null. Throws Misuse for a word that is none. What it gives lives as
    // long as this and `instrument`, and until it is asked again.
    const instruments::Instrument* judged(const instruments::Instrument* instrument);

private:
    std::optional<std::string> word_;
    std::optional<instruments::Instrument> with_any_ways_;
};

}  // namespace cli
