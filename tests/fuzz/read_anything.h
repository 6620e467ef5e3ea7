// What must hold for any bytes at all: shared by the fuzz target and the replay of its corpus.
#pragma once

#include <string>

namespace fuzz {

// Reads the bytes as an ABC file and analyses every tune of it. Aborts, saying which promise was broken, when one does
// not hold; ordinary faults of the file are no fault here.
void read_anything(std::string bytes);

}  // namespace fuzz
