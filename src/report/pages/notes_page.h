// What each note is worth, as a musician reads it: `gamut notes`.
#pragma once

#include <string>

#include "answers/notes.h"
#include "report/document.h"

namespace report {

Document describe(const answers::NotesAnswer& page);
Document tabulate(const answers::NotesAnswer& page);  // the table of notes alone
std::string as_json(const answers::NotesAnswer& page);

}  // namespace report
