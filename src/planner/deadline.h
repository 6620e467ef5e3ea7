// The moment at which a proof is given up.
#pragma once

#include <atomic>
#include <chrono>

#include "planner/goal.h"

namespace planner {

class Deadline {
public:
    // The seconds count from now; beyond a year (or not a number) there is no end to speak of.
    explicit Deadline(const Limits& limits) : Deadline(limits.max_seconds, limits.stop) {}
    explicit Deadline(double seconds, const std::atomic<bool>* stop = nullptr)
        : stop_(stop),
          end_(std::chrono::steady_clock::now() + std::chrono::duration_cast<std::chrono::steady_clock::duration>(
                                                      std::chrono::duration<double>(seconds < 0       ? 0
                                                                                    : seconds < kYear ? seconds
                                                                                                      : kYear))) {}

    bool has_passed() const { return (stop_ != nullptr && stop_->load()) || std::chrono::steady_clock::now() >= end_; }

private:
    static constexpr double kYear = 366.0 * 24 * 3600;

    const std::atomic<bool>* stop_;
    std::chrono::steady_clock::time_point end_;
};

}  // namespace planner
