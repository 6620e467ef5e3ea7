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

// UTF-8. Control characters of titles and file names are made harmless.
std::string render_text(const Document& document, const Page& page);

}  // namespace report
