// `--instrument NAME` and `--instrument-file FILE` on the command line: the instrument in the hands.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <optional>
#include <string>

#include "instruments/instrument.h"

namespace cli {

class InstrumentOption {
public:
    // `option` is what it is called on this command; several names are parted by commas.
    void add_to(CLI::App& command, const char* help, const char* group = "Options",
                const char* option = "--instrument");

    bool is_given() const noexcept { return name_.has_value() || file_.has_value(); }

    // Null when none was given. Throws Misuse for a name that is none and for a file that cannot be
    // understood; base::Failure for one that cannot be read. Lives as long as this.
    const instruments::Instrument* instrument() const;

private:
    std::optional<std::string> name_, file_;
    mutable std::unique_ptr<const instruments::Instrument> own_;
};

// An instrument that comes with the program; Misuse with names like it for any other word.
const instruments::Instrument& instrument_named(const std::string& name);

// The user's own, checked. Throws as InstrumentOption::instrument.
instruments::Instrument read_own_instrument(const std::string& file);

}  // namespace cli
