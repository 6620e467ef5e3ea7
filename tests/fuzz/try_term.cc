#include "answers/stored_request.h"
#include "base/invariant.h"
#include "base/utf8.h"
#include "syllabus/stored_syllabus.h"
#include "targets.h"

namespace fuzz {

void try_term(const std::string& bytes) {
    try {
        const syllabus::Syllabus term = syllabus::read_stored(bytes);
        const std::string text = syllabus::write_stored(term);
        INVARIANT(base::is_utf8(text));
        INVARIANT(syllabus::read_stored(text) == term);
        INVARIANT(syllabus::write_stored(syllabus::read_stored(text)) == text);
        const std::string asked = answers::write_request(answers::read_request(term.asked));
        INVARIANT(answers::write_request(answers::read_request(asked)) == asked);
    } catch (const syllabus::StoredFault& fault) {
        INVARIANT(!std::string_view(fault.what()).empty());
    }
}

}  // namespace fuzz
