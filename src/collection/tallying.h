// What passes and what is left out, and why: for the sieve.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "collection/sieve.h"

namespace collection {

// Takes the judged settings in the order of their tunes, and keeps of each tune the one that fails fewest filters; of
// equals the best by Sifted::rank, then the one that lacks fewest notes, then the first.
class Tallying {
public:
    // Those in `given` are told of: a bit for each FilterBy.
    Tallying(std::uint32_t given, bool one_row_a_setting);

    void take(const Sifted& row);
    Sifting finish();  // once, as the last call

private:
    void settle();

    bool one_row_a_setting_;
    std::vector<std::uint32_t> filters_;   // the bit of each filter given
    std::optional<Sifted> best_;           // of the tune whose settings are coming
    std::vector<music::NoteSet> passing_;  // of its settings that fail no filter
    Sifting sifting_;
};

}  // namespace collection
