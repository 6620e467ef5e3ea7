// Tested by tag_test.cc.
#include "tune/tag.h"

#include <algorithm>

#include "base/utf8.h"

namespace tune {

namespace {

// The blanks of Unicode that people type or paste; fold() makes the others plain.
std::string with_plain_blanks(std::string_view text) {
    std::string plain(text);
    constexpr std::string_view kNoBreakSpace = "\xC2\xA0";
    for (std::size_t at = plain.find(kNoBreakSpace); at != std::string::npos; at = plain.find(kNoBreakSpace, at))
        plain.replace(at, kNoBreakSpace.size(), " ");
    return plain;
}

std::string without_needless_blanks(std::string_view text) {
    std::string kept;
    for (const char c : text)
        if (c != ' ' || (!kept.empty() && kept.back() != ' ')) kept += c;
    if (!kept.empty() && kept.back() == ' ') kept.pop_back();
    return kept;
}

std::size_t code_points_in(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return !base::is_continuation_byte(c); }));
}

}  // namespace

Tag read_tag(std::string_view written) {
    if (!base::is_utf8(written)) throw TagFault("a tag must be UTF-8");
    if (base::printable(written) != written) throw TagFault("a tag cannot have control characters in it");
    const std::string text = without_needless_blanks(with_plain_blanks(base::composed(written)));
    Tag tag{text, fold_tag(text)};
    if (tag.folded.empty()) throw TagFault("a tag cannot be empty");
    if (code_points_in(text) > kMaxTagCharacters)
        throw TagFault("a tag has at most " + std::to_string(kMaxTagCharacters) + " characters, not " +
                       std::to_string(code_points_in(text)));
    return tag;
}

std::string fold_tag(std::string_view text) { return without_needless_blanks(base::fold(with_plain_blanks(text))); }

}  // namespace tune
