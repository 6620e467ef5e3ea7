// The program's own version.
#pragma once

namespace cli {

inline constexpr const char* kVersion = "gamut 0.1.0";

}  // namespace cli
