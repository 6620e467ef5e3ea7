// A document as a page of HTML.
#pragma once

#include <string>

#include "report/document.h"

namespace report {

// UTF-8, HTML as the living standard has it: sections under their headings, tables whose heads are told from their
// cells, lists, tunes in ABC as preformatted text. No script, no style; what is to look otherwise has a class. Nothing
// of a text is taken for a tag, and control characters become blanks. In the head stands the title or the heading the
// document begins with, else the program's name.
std::string render_html(const Document& document);

}  // namespace report
