// Tested by tests/golden/program/misused.test.
#include "cli/nearest_word.h"

#include <algorithm>

#include "tune/spelling_distance.h"

namespace cli {

std::optional<std::string> nearest_word(const std::vector<std::string>& known, const std::string& written) {
    const tune::Spelling spelling(tune::letters_of(written));
    std::optional<std::string> best;
    const auto letters = std::count_if(written.begin(), written.end(), [](char c) { return c != '-'; });
    int least = static_cast<int>(letters) / 3 + 1;
    for (const std::string& one : known) {
        const int distance = spelling.distance_to(tune::letters_of(one), least);
        if (distance >= least) continue;
        least = distance;
        best = one;
    }
    return best;
}

std::string hint(const std::optional<std::string>& meant) { return meant ? " (" + *meant + "?)" : ""; }

}  // namespace cli
