// Tested by tag_test.cc.
#include "tune/tag.h"

#include "base/utf8.h"

namespace tune {

Tag read_tag(std::string_view written) {
    if (!base::is_utf8(written)) throw TagFault("a tag must be UTF-8");
    if (base::printable(written) != written) throw TagFault("a tag cannot have control characters in it");
    const std::string text = base::without_needless_blanks(base::composed(written));
    Tag tag{text, fold_tag(text)};
    if (tag.folded.empty()) throw TagFault("a tag cannot be empty");
    if (base::code_points_in(text) > kMaxTagCharacters)
        throw TagFault("a tag has at most " + std::to_string(kMaxTagCharacters) + " characters, not " +
                       std::to_string(base::code_points_in(text)));
    return tag;
}

std::string fold_tag(std::string_view text) {
    return base::without_needless_blanks(base::fold(base::without_needless_blanks(text)));
}

}  // namespace tune
