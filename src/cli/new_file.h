// Writing an answer to a file of its own.
#pragma once

#include <string>
#include <string_view>

namespace cli {

// A file that is there already may be years of work: only a new one is written. Throws base::Failure.
void write_new_file(const std::string& file, std::string_view text);

}  // namespace cli
