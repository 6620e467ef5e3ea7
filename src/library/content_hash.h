// By which a file is known again.
#pragma once

#include <string>
#include <string_view>

namespace library {

// 128-bit XXH3 of the bytes as they are on the disk, 32 hexadecimal digits.
std::string content_hash(std::string_view bytes);

}  // namespace library
