#include "base/failure.h"

#include <system_error>

namespace base {

Failure::Failure(const std::string& doing, const std::string& to_what, const std::string& system_said)
    : std::runtime_error("could not " + doing + " " + to_what + ": " + system_said) {}

void fail_with_errno(const std::string& doing, const std::string& to_what, int error_number) {
    throw Failure(doing, to_what, std::generic_category().message(error_number));
}

}  // namespace base
