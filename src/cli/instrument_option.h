// `--instrument NAME` and `--instrument-file FILE` on the command line: the instrument in the hands.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <optional>
#include <string>

#include "answers/refusal.h"
#include "instruments/instrument.h"

namespace cli {

class InstrumentOption {
public:
    // `option` is what it is called on this command; several names are parted by commas.
    void add_to(CLI::App& command, const char* help, const char* group = "Options",
                const char* option = "--instrument");

    bool is_given() const noexcept { return name_.has_value() || file_.has_value(); }

    // Null when none was given. Throws answers::Refused for a name that is none, Misuse for a file that cannot be
    // understood; base::Failure for one that cannot be read.
    std::shared_ptr<const instruments::Instrument> shared() const;
    const instruments::Instrument* instrument() const { return shared().get(); }  // lives as long as this

    // Where the user's own is described, from the root on; nothing for others.
    std::optional<std::string> file() const;

private:
    std::optional<std::string> name_, file_;
    answers::Part part_ = answers::Part::instrument;                // of the question, by the first name of the option
    mutable std::shared_ptr<const instruments::Instrument> given_;  // once read
};

// The user's own, checked. Throws as InstrumentOption::instrument.
instruments::Instrument read_own_instrument(const std::string& file);

}  // namespace cli
