// A list of titles in a file or on standard input.
#pragma once

#include <string>
#include <vector>

#include "tune/title_list.h"

namespace cli {

// `-` is standard input. Lines that are not UTF-8 are told. Throws base::Failure for what cannot be read or is no text.
std::vector<tune::ListedTitle> titles_listed(const std::string& file);

std::string listed_in(const std::string& file);  // as it is called: the file, or `standard input`

}  // namespace cli
