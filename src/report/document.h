// An answer before it is text: headings, paragraphs, tables. A number is still a number.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace report {

// Nothing known, a text, a whole number, or a share of one (0 to 1, printed as per cent).
struct Share {
    double value = 0;
};
using Cell = std::variant<std::monostate, std::string, std::int64_t, Share>;

struct Column {
    std::string title;
    bool may_shrink = false;    // cut, with an ellipsis, where the table is wider than the page
    std::size_t narrowest = 8;  // columns of the terminal it keeps then, at least 1
    bool wraps = false;         // never cut: where it shrinks it goes on in lines below, broken at blanks
};

// Numbers stand to the right, texts to the left. Where the page is still too narrow, all columns but those that are cut
// go on below between words; on a page narrower than that, each row becomes a few lines of its own.
struct Table {
    std::vector<Column> columns;
    std::vector<std::vector<Cell>> rows;  // each as long as `columns`
};

struct Heading {
    std::string text;
};

// Wrapped at blanks.
struct Paragraph {
    std::string text;
};

// A label and what it says, one under the other.
struct Particulars {
    std::vector<std::pair<std::string, std::string>> lines;
};

// Printed as it stands.
struct Verbatim {
    std::string text;
};

// Lines that know how to keep to so many columns.
struct Picture {
    std::function<std::string(std::size_t columns)> draw;
};

using DocumentBlock = std::variant<Heading, Paragraph, Table, Particulars, Verbatim, Picture>;

struct Document {
    std::vector<DocumentBlock> blocks;
};

}  // namespace report
