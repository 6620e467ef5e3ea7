// The steps that make a library's tables, in order: schema/*.sql, embedded in the program. Private to this room.
#pragma once

#include <span>
#include <string_view>

namespace library {

struct Migration {
    int version;  // 1, 2, 3 ... without gaps: what the library is when it has run
    std::string_view sql;
};

// Written by schema/embed.cmake.
std::span<const Migration> migrations();

}  // namespace library
