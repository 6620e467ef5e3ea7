// The moment at which a proof is given up.
#pragma once

#include <chrono>

namespace planner {

class Deadline {
public:
    // Seconds from now; beyond a year (or not a number) there is none to speak of.
    explicit Deadline(double seconds)
        : end_(std::chrono::steady_clock::now() +
               std::chrono::duration_cast<std::chrono::steady_clock::duration>(
                   std::chrono::duration<double>(seconds < kYear ? seconds : kYear))) {}

    bool has_passed() const { return std::chrono::steady_clock::now() >= end_; }

private:
    static constexpr double kYear = 366.0 * 24 * 3600;

    std::chrono::steady_clock::time_point end_;
};

}  // namespace planner
