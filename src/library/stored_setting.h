// What an import hands to the library.
#pragma once

#include <string>
#include <string_view>

#include "collection/stored_setting.h"

namespace library {

using collection::StoredDiagnostic;
using collection::StoredFile;
using collection::StoredOddity;
using collection::StoredSetting;

// 128-bit XXH3 of the bytes as they are on the disk, 32 hexadecimal digits.
std::string content_hash(std::string_view bytes);

}  // namespace library
