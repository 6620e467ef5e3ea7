// Tested by name_test.cc.
#include "syllabus/name.h"

#include "base/utf8.h"
#include "tune/tag.h"

namespace syllabus {

Name read_name(std::string_view written) {
    if (!base::is_utf8(written)) throw NameFault("the name of a term must be UTF-8");
    if (base::printable(written) != written) throw NameFault("the name of a term cannot have control characters in it");
    Name name{base::without_needless_blanks(base::composed(written)), tune::fold_tag(written)};
    if (name.folded.empty()) throw NameFault("the name of a term cannot be empty");
    if (base::code_points_in(name.text) > kMaxNameCharacters)
        throw NameFault("the name of a term has at most " + std::to_string(kMaxNameCharacters) + " characters, not " +
                        std::to_string(base::code_points_in(name.text)));
    return name;
}

}  // namespace syllabus
