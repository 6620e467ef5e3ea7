#include "cli/interrupt.h"

#include <csignal>

namespace cli {

namespace {

using Disposition = void (*)(int);

std::atomic<bool> came{false};
Disposition before = SIG_DFL;
static_assert(std::atomic<bool>::is_always_lock_free);  // a signal may set it

extern "C" void note_interrupt(int /*signal*/) {
    came = true;
    std::signal(SIGINT, SIG_DFL);
}

}  // namespace

Interrupt::Interrupt() {
    came = false;
    before = std::signal(SIGINT, note_interrupt);
    if (before == SIG_IGN) std::signal(SIGINT, SIG_IGN);  // as whoever started us wants it
}

Interrupt::~Interrupt() { std::signal(SIGINT, before); }

const std::atomic<bool>& Interrupt::has_come() const noexcept { return came; }

}  // namespace cli
