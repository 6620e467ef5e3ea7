// The bytes of a file on the disk: the one file of this room that asks the system (POSIX), and no part of the engine.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace base {

// The most that is read of one file. Source: house choice; the largest collections in one file are some tens of
// megabytes.
constexpr std::int64_t kMaxFileBytes = std::int64_t{256} * 1024 * 1024;

// The bytes as they are on the disk. Throws Failure when the file cannot be read, is a device, or goes on beyond
// kMaxFileBytes.
std::string read_bytes(const std::filesystem::path& path);

}  // namespace base
