// Ctrl-C while the planner thinks: it stops thinking, and what it has is told.
#pragma once

#include <atomic>

namespace cli {

// While one lives, the first Ctrl-C is noted and the second ends the program as ever. One at a time.
class Interrupt {
public:
    Interrupt();
    ~Interrupt();
    Interrupt(const Interrupt&) = delete;
    Interrupt& operator=(const Interrupt&) = delete;

    const std::atomic<bool>& has_come() const noexcept;
};

}  // namespace cli
