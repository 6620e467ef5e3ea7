// Pages of paper: pieces one under the other, each as high as it says, none ever cut.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "paper/ink.h"

namespace paper {

// What A4 and Letter both have beside margins of 12 mm, 20 at the left for holes. Source: ISO 216 (210 x 297 mm) and
// ANSI/ASME Y14.1 (215.9 x 279.4 mm); margins are a house choice.
constexpr double kWidth = 178;    // mm
constexpr double kHeight = 254;   // mm
constexpr double kRunning = 5.5;  // mm, for what says on later pages what they belong to

struct Piece {
    std::string html;
    double height = 0;             // mm
    bool keeps_with_next = false;  // a heading does
    bool may_begin_page = true;    // not where it would stand alone there
};

struct Page {
    std::vector<Piece> pieces;
};

// Fills pages from the top, `height` mm each; later ones have kRunning less. A piece that keeps with the next goes
// where that goes; one higher than a page has a page of its own.
std::vector<Page> to_pages(std::vector<Piece> pieces, double height);

double height_of(const std::vector<Piece>& pieces);

// A line or more of running text as a piece: as many lines as it takes in `width` mm. `html` is the text with marks of
// its own; without it the text alone. The type is that of the class in src/paper/paper.css.
struct Type {
    std::string_view name;  // of the class
    double em = 4.2;        // mm
    double line = 5.4;      // mm from line to line
    Weight weight = Weight::regular;
    double below = 0;  // mm kept free
};
inline constexpr Type kTitle{"title", 7.8, 9.2, Weight::bold, 0.6};
inline constexpr Type kFacts{"facts", 4.23, 5.4, Weight::regular, 0.6};
inline constexpr Type kLegend{"legend", 3.7, 4.7, Weight::regular, 1.4};
inline constexpr Type kPlain{"plain", 4.23, 5.5, Weight::regular, 0};
inline constexpr Type kSmallPrint{"small", 3.0, 3.7, Weight::regular, 0};

// How many lines a text takes, broken at blanks.
int lines_of(std::string_view text, const Type& type, double width);
Piece text_piece(std::string_view text, const Type& type, double width = kWidth, std::string_view html = {});

// The title of a sheet, and whose it is at its right, or below where there is no room.
Piece titled(std::string_view title, std::string_view whose = {});

void append(std::vector<Piece>& pieces, std::vector<Piece> more);

// A heading with a line under it; `right` stands at its end.
Piece heading(std::string_view text, std::string_view right = {});

// Two things side by side.
Piece side_by_side(const std::vector<Piece>& left, double left_width, const std::vector<Piece>& right,
                   double right_width);

// What stands at the foot of each page.
struct Foot {
    std::string caution;  // may be empty
    std::string line;     // whose, from where; the page number is added
    std::string running;  // the title, on every page but the first
};

// What it leaves of a page, in mm.
double room_above(const Foot& foot);

// The pages as HTML, to stand in the body of a document.
std::string html_of(const std::vector<Page>& pages, const Foot& foot);

// A whole document: self-contained, without script, with a policy that lets nothing be fetched.
std::string document_of(const std::string& title, const std::string& body);

}  // namespace paper
