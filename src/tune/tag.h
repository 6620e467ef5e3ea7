// Tags: free words a person keeps for a tune.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>

namespace tune {

// Why a text is no tag, in one sentence for the person who wrote it.
class TagFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// In code points. Source: house choice; a tag is a word or a few, and has to fit a column.
constexpr std::size_t kMaxTagCharacters = 100;

struct Tag {
    std::string text;    // as shown: UTF-8, normal form C, blanks around it left out, runs of blanks made one
    std::string folded;  // as compared: fold_tag of it, never empty

    friend bool operator==(const Tag&, const Tag&) = default;
};

// Throws TagFault for a text with nothing to read in it, one that is too long, has control characters or is not UTF-8.
Tag read_tag(std::string_view written);

// For comparing: accents and case dropped, runs of blanks made one. Unlike in a title, signs and articles count: `in
// F#` is not `in F`. Empty when nothing is left.
std::string fold_tag(std::string_view text);

}  // namespace tune
