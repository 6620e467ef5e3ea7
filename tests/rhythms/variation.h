// The same tune written another way: other note values, dotted or even, other bar lines.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "tune/setting.h"

namespace rhythms {

struct Variation {
    std::string_view name;
    // Nothing where it does not apply to the tune.
    std::optional<tune::Setting> (*write)(const tune::Setting&);
    bool keeps_pattern = true;  // the same answer is due; else only that the kind stays possible
};

const std::vector<Variation>& variations();

}  // namespace rhythms
