// Text strings of ABC: titles, annotations, words. ABC 2.1, sections 8.2 and 14.1.
#pragma once

#include <string>
#include <string_view>

namespace abc {

// Backslash mnemonics, \uXXXX, HTML entities and font switches resolved; the result is UTF-8.
// An unknown escape keeps its letter without the backslash.
std::string plain_text(std::string_view written);

}  // namespace abc
