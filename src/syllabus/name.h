// What a term is called.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace syllabus {

// Why a text is no name, in one sentence for the person who wrote it.
class NameFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// In code points. Source: house choice; a name has to fit a heading.
constexpr std::size_t kMaxNameCharacters = 60;

struct Name {
    std::string text;    // as shown: UTF-8, normal form C, needless blanks left out
    std::string folded;  // as compared: without case and accents; never empty
};

// Throws NameFault for a text with nothing to read in it, one that is too long, has control characters or is not UTF-8.
Name read_name(std::string_view written);

}  // namespace syllabus
