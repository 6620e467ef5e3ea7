// The program's own version, which stands in CMakeLists.txt.
#pragma once

namespace cli {

inline constexpr const char* kRelease = GAMUT_VERSION;
inline constexpr const char* kVersion = "gamut " GAMUT_VERSION;

}  // namespace cli
