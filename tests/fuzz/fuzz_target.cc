// A fuzzing program (libFuzzer) for the target FUZZ_TARGET. Built by scripts/fuzz, one a target.
#include <cstddef>
#include <cstdint>
#include <string>

#include "targets.h"

// Beyond this an input only takes longer; long ones are tried by tests/outside/pathological.py.
constexpr std::size_t kMaxBytes = 16384;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    if (size > kMaxBytes) return -1;
    fuzz::FUZZ_TARGET(std::string(reinterpret_cast<const char*>(bytes), size));
    return 0;
}
