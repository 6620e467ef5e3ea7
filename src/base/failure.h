// The world failed: disk, permissions, a damaged library. Thrown in base, importer and library, caught once in main.
#pragma once

#include <stdexcept>
#include <string>

namespace base {

// What we were doing, to what, and what the system said. `what()` is one sentence for the user.
class Failure : public std::runtime_error {
public:
    Failure(const std::string& doing, const std::string& to_what, const std::string& system_said);
};

// The same with the system's words for an errno value.
[[noreturn]] void fail_with_errno(const std::string& doing, const std::string& to_what, int error_number);

}  // namespace base
