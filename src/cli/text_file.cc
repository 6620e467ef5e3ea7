#include "cli/text_file.h"

#include <unistd.h>

#include <filesystem>

#include "base/failure.h"
#include "base/file_bytes.h"

namespace cli {

std::string text_of_file(const std::string& file) {
    std::error_code unknown;
    if (std::filesystem::is_directory(file, unknown)) throw base::Failure("read", file, "it is a folder");
    if (::access(file.c_str(), R_OK) != 0)
        throw base::Failure("read", file, "there is no such file, or it may not be read");
    return base::read_bytes(file);
}

}  // namespace cli
