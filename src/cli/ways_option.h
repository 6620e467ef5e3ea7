// `--ways steady|any` on the command line: whether a note keeps one way through a tune.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <optional>
#include <string>

#include "instruments/instrument.h"

namespace cli {

class WaysOption {
public:
    void add_to(CLI::App& command);

    bool is_given() const noexcept { return word_.has_value(); }

    bool are_any() const;  // throws Misuse for a word that is none

    // `instrument` as it is to be judged; null for null. Throws the same.
    std::shared_ptr<const instruments::Instrument> judged(
        const std::shared_ptr<const instruments::Instrument>& instrument) const;

private:
    std::optional<std::string> word_;
};

}  // namespace cli
