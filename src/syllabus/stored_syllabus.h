// A syllabus as it is kept: a text of our own, read back exactly.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "syllabus/syllabus.h"

namespace syllabus {

// Why a text is no syllabus.
class StoredFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// JSON on one line, `asked` in it as it stands, which must be JSON; notes are MIDI numbers, dates as ISO 8601 has them.
std::string write_stored(const Syllabus& syllabus);

// Throws StoredFault for what write_stored did not write.
Syllabus read_stored(std::string_view text);

}  // namespace syllabus
