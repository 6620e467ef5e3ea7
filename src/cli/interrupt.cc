#include "cli/interrupt.h"

#include <csignal>

namespace cli {

namespace {

std::atomic<bool> came{false};
static_assert(std::atomic<bool>::is_always_lock_free);  // a signal may set it

extern "C" void note_interrupt(int /*signal*/) {
    came = true;
    std::signal(SIGINT, SIG_DFL);
}

}  // namespace

Interrupt::Interrupt() {
    came = false;
    std::signal(SIGINT, note_interrupt);
}

Interrupt::~Interrupt() { std::signal(SIGINT, SIG_DFL); }

const std::atomic<bool>& Interrupt::has_come() const noexcept { return came; }

}  // namespace cli
