// A document for a terminal.
#pragma once

#include <cstddef>
#include <string>

#include "report/document.h"

namespace report {

struct Page {
    std::size_t width_chars = 80;  // at least 40
    bool color = false;            // only ever beside words, never instead of them
};

// UTF-8. Numbers stand to the right in a table, texts to the left. Where the page is too narrow, first the columns that
// may be cut or wrapped give room, then all but those that are cut go on below between words; on a page narrower than
// that, each row becomes a few lines of its own. Control characters of titles and file names are made harmless.
std::string render_text(const Document& document, const Page& page);

}  // namespace report
