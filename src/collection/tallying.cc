// Tested by sieve_test.cc.
#include "collection/tallying.h"

#include <algorithm>
#include <bit>
#include <tuple>
#include <utility>

namespace collection {

Tallying::Tallying(std::uint32_t given, bool one_row_a_setting) : one_row_a_setting_(one_row_a_setting) {
    for (std::uint8_t filter = 0; given >> filter != 0; ++filter) {
        if ((given >> filter & 1) == 0) continue;
        filters_.push_back(std::uint32_t{1} << filter);
        sifting_.tally.why.push_back({static_cast<FilterBy>(filter), 0, 0});
    }
}

void Tallying::take(const Sifted& row) {
    if (best_ && (one_row_a_setting_ || best_->tune != row.tune)) settle();
    const auto worth = [](const Sifted& one) { return std::tuple(std::popcount(one.failed), one.rank, one.lacking); };
    if (row.failed == 0 && !one_row_a_setting_) passing_.push_back(row.needed);
    if (!best_ || worth(row) < worth(*best_)) best_ = row;
}

Sifting Tallying::finish() {
    if (best_) settle();
    return std::move(sifting_);
}

void Tallying::settle() {
    const std::uint32_t failed = best_->failed;
    if (failed == 0) {
        ++sifting_.tally.matched;
        best_->has_other_notes = std::any_of(passing_.begin(), passing_.end(), [&](const music::NoteSet& other) {
            return !best_->needed.is_within(other);
        });
        sifting_.passed.push_back(*best_);
    } else {
        ++sifting_.tally.left_out;
        if (best_->is_open_key) ++sifting_.tally.open_keys;
    }
    for (std::size_t i = 0; failed != 0 && i < filters_.size(); ++i) {
        if ((failed & filters_[i]) == 0) continue;
        ++sifting_.tally.why[i].fails;
        if (failed == filters_[i]) ++sifting_.tally.why[i].alone;
    }
    passing_.clear();
    best_.reset();
}

}  // namespace collection
