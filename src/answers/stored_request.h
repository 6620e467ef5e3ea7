// What a term was asked for with, as it is kept: JSON, field by field.
#pragma once

#include <string>
#include <string_view>

#include "answers/term_request.h"

namespace answers {

// JSON on one line; see schema/journal.md. An instrument is kept by its id, one of the user's own by its file.
std::string write_request(const TermRequest& request);

// Also one that was kept as the words of a command line, as all were before they were kept by field. An instrument of
// the user's own is not read: its file is in `instrument_file`. Throws syllabus::StoredFault for what write_request did
// not write.
TermRequest read_request(std::string_view text);

// The filter alone, of an object with the same fields for it and no others. Throws as read_request does.
Filter read_filter(std::string_view text);

}  // namespace answers
