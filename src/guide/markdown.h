// As much Markdown as the guide is written in, as a document.
#pragma once

#include <string_view>

#include "report/document.h"

namespace guide {

// Headings (`#`), paragraphs, lists (`- `, `1. `), tables and fenced blocks. Signs for bold, slanted and typewriter
// letters are left out, which a terminal would show as they stand; of a link the text stays, and for another page of
// the guide how to ask for it. A list numbered otherwise is numbered from 1. Anything else is a paragraph: no text is
// refused.
report::Document document_of(std::string_view markdown);

}  // namespace guide
