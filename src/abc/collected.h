// Settings of several files as one ABC tunebook.
#pragma once

#include <string>
#include <string_view>

#include "base/source_file.h"

namespace abc {

// One tune out of `source`, which holds a file header, if it has one, and the tune: what the header says stands in the
// tune itself, so that it reads the same in any file. Its X: becomes `number`, and `from` is told in a comment. Ends in
// an empty line. Nothing else is changed.
std::string collected(const base::SourceFile& source, int number, std::string_view from);

}  // namespace abc
