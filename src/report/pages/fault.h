// Why there is no answer, for a program that asked.
#pragma once

#include <string>
#include <vector>

#include "tune/record.h"

namespace report {

struct Fault {
    // A token of answers::Reason; `misused`: the words were not understood; `failed`: the world or the library did not
    // allow it; `not-done`: asked for rightly, and nothing came of it.
    std::string kind;
    std::string option;  // at fault, `--towards`; empty where there is none
    std::string message;
    int exit_code = 0;
    std::vector<std::string> near;          // what may have been meant
    std::vector<tune::TuneRecord> tunes{};  // the same
};

std::string as_json(const Fault& fault);

}  // namespace report
