// Reading a file that an option names.
#pragma once

#include <string>

namespace cli {

// Whole; throws base::Failure when there is none, when it is a folder, or when it goes on beyond base::kMaxFileBytes.
std::string text_of_file(const std::string& file);

}  // namespace cli
