// Staff notation by abcm2ps, where it is installed.
#pragma once

#include <string>

namespace cli {

// SVG of a text of our own; empty where there is no such program, where it takes longer than ten seconds, or where it
// finds fault. It is given nothing but its standard input, and reads no file.
std::string engrave(const std::string& abc);

bool has_engraver();  // somewhere in $PATH

}  // namespace cli
