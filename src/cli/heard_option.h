// `--goes` on the command line: tunes found by how they sound.
#pragma once

#include <CLI/CLI.hpp>
#include <map>
#include <optional>
#include <string>

#include "library/library.h"
#include "report/listing.h"

namespace cli {

class HeardOption {
public:
    void add_to(CLI::App& command);
    bool is_given() const { return heard_.has_value(); }

    // Puts the settings in which the phrase is found into `selection`, the best first, and says where it is found in
    // each. Throws Misuse for what is no phrase.
    std::map<tune::SettingId, report::HeardAt> apply_to(collection::Selection& selection,
                                                        const collection::Collection& library) const;

private:
    std::optional<std::string> heard_;
    bool at_start_ = false;
};

}  // namespace cli
