#include "cli/limit_options.h"

#include <algorithm>

#include "cli/default_words.h"
#include "cli/terminal.h"

namespace cli {

namespace {

constexpr std::int64_t kMostMemoryMib = 1'000'000;
constexpr std::size_t kBytesOfState = 200;  // of a search, about; see planner::Limits

}  // namespace

void LimitOptions::add_to(CLI::App& command, const char* group) {
    command
        .add_option("--max-seconds", max_seconds_,
                    "stop proving after so long and say what is known" +
                        default_words(static_cast<std::int64_t>(planner::Limits{}.max_seconds)))
        ->type_name("S")
        ->group(group);
    command
        .add_option("--max-memory", max_memory_mib_,
                    "for the proof, in MiB" + default_words(planner::Limits{}.max_table_bytes >> 20))
        ->type_name("MIB")
        ->group(group);
}

void LimitOptions::check() const {
    if (max_seconds_ && !(*max_seconds_ >= 0)) throw Misuse("--max-seconds takes a number from 0 up");
    if (max_memory_mib_ && (*max_memory_mib_ < 0 || *max_memory_mib_ > kMostMemoryMib))
        throw Misuse("--max-memory takes a number of MiB from 0 to " + std::to_string(kMostMemoryMib));
}

void LimitOptions::apply_to(planner::Limits& limits) const {
    if (max_seconds_) limits.max_seconds = *max_seconds_;
    if (!max_memory_mib_) return;
    limits.max_table_bytes = static_cast<std::size_t>(*max_memory_mib_) << 20;
    limits.max_states = std::min(limits.max_states, limits.max_table_bytes / kBytesOfState);
}

}  // namespace cli
