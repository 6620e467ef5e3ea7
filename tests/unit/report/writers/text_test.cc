#include "report/writers/text.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "base/utf8.h"

using report::Cell;
using report::Document;
using report::render_text;
using report::Share;
using report::Table;

namespace {

Cell number(std::int64_t value) { return Cell(value); }
Cell text(const char* value) { return Cell(std::string(value)); }

Document table_of_tunes() {
    Table table{{{"id"}, {"title", report::Fit::cut}, {"range"}, {"share"}}, {}};
    table.rows.push_back({number(7), text("Rain on the Slipway"), text("D4..B5"), Cell(Share{0.5})});
    table.rows.push_back({number(1234),
                          text("A very long title indeed, of the kind that no page is wide enough for, and on it goes"),
                          text("A3..A4"), Cell(Share{0.0625})});
    table.rows.push_back({number(80), text("Café"), Cell(), Cell(Share{1})});
    return {{table}};
}

std::string rendered(const Document& document, std::size_t width, bool color = false) {
    return render_text(document, {.width_chars = width, .color = color});
}

std::vector<std::string> lines(const std::string& rendered) {
    std::vector<std::string> all;
    std::istringstream in(rendered);
    for (std::string line; std::getline(in, line);) all.push_back(line);
    return all;
}

}  // namespace

TEST_CASE("text: a table at 80 columns", "[report][text]") {
    CHECK(rendered(table_of_tunes(), 80) ==
          "  id  title                                                      range     share\n"
          "   7  Rain on the Slipway                                        D4..B5   50.0 %\n"
          "1234  A very long title indeed, of the kind that no page is wi…  A3..A4    6.3 %\n"
          "  80  Café                                                       -       100.0 %\n");
}

TEST_CASE("text: a table at 40 columns", "[report][text]") {
    CHECK(rendered(table_of_tunes(), 40) ==
          "  id  title              range     share\n"
          "   7  Rain on the Slip…  D4..B5   50.0 %\n"
          "1234  A very long titl…  A3..A4    6.3 %\n"
          "  80  Café               -       100.0 %\n");
}

TEST_CASE("text: a column that wraps goes on below and loses nothing", "[report][text]") {
    const Document document{
        {Table{{{"id"}, {"title", report::Fit::wrapped, 8}, {"key"}},
               {{number(7), text("Rain on the Slipway at the Turn of the Tide"), text("D major")},
                {number(12), text("Soup"), text("A dorian")},
                {number(13), text("Windlasshandlesandboathooks at Sea, all the Way"), text("G major")}}}}};
    CHECK(rendered(document, 40) ==
          "id  title                       key\n"
          " 7  Rain on the Slipway at the  D major\n"
          "    Turn of the Tide\n"
          "12  Soup                        A dorian\n"
          "13  Windlasshandlesandboathook  G major\n"
          "    s at Sea, all the Way\n");
    CHECK(rendered(document, 80) ==
          "id  title                                            key\n"
          " 7  Rain on the Slipway at the Turn of the Tide      D major\n"
          "12  Soup                                             A dorian\n"
          "13  Windlasshandlesandboathooks at Sea, all the Way  G major\n");
}

TEST_CASE("text: every word of a column that wraps is there, in lines that fit", "[report][text]") {
    const std::string title = "A very long title indeed, of the kind that no page is wide enough for, and on it goes";
    Document document = table_of_tunes();
    std::get<Table>(document.blocks.front()).columns[1].fit = report::Fit::wrapped;
    for (std::size_t width = 40; width <= 120; ++width) {
        std::string words;  // of the second column, between its neighbours
        const auto all = lines(rendered(document, width));
        const std::size_t end = all.front().find("range");
        const auto row =
            std::find_if(all.begin(), all.end(), [](const auto& line) { return line.starts_with("1234"); });
        for (auto at = static_cast<std::size_t>(row - all.begin()); at + 1 < all.size(); ++at) {
            CAPTURE(width, all[at]);
            CHECK(base::display_width(all[at]) <= width);
            std::string part = all[at].substr(6, end - 6);
            part.erase(part.find_last_not_of(' ') + 1);
            words += (words.empty() ? "" : " ") + part;
        }
        CHECK(words == title);
    }
}

TEST_CASE("text: titles of columns wrap too, and a letter wider than its column stands alone", "[report][text]") {
    CHECK(rendered(Document{{Table{{{"joins the one before", report::Fit::wrapped, 5}, {"notes"}},
                                   {{text("same key"), text("A3 B3 C#4 D4 E4 F#4 G4 A4 B4")}}}}},
                   40) ==
          "joins the   notes\n"
          "one before\n"
          "same key    A3 B3 C#4 D4 E4 F#4 G4 A4 B4\n");
    CHECK(rendered(Document{{Table{{{"t", report::Fit::wrapped, 1}, {"n"}},
                                   {{text("\u6F22\u5B57 a"), text("A3 B3 C#4 D4 E4 F#4 G4 A4 B4 C#5 D5 E5")}}}}},
                   40) ==
          "t  n\n"
          "\u6F22  A3 B3 C#4 D4 E4 F#4 G4 A4 B4 C#5 D5\n"
          "\u5B57  E5\n"
          "a\n");
}

TEST_CASE("text: a table takes no more room than it needs", "[report][text]") {
    CHECK(rendered(Document{{Table{{{"note"}, {"times"}}, {{text("A3"), number(12)}}}}}, 80) ==
          "note  times\nA3       12\n");
}

TEST_CASE("text: no line of a table is wider than the page while a column can shrink", "[report][text]") {
    for (std::size_t width = 40; width <= 120; ++width)
        for (const std::string& line : lines(rendered(table_of_tunes(), width))) {
            CAPTURE(width, line);
            CHECK(base::display_width(line) <= width);
        }
}

TEST_CASE("text: where that is not enough the others go on below, between words", "[report][text]") {
    const Document document{
        {Table{{{"notes"}, {"title", report::Fit::cut}, {"struck"}},
               {{text("A3 B3 C#4 D4 E4 F#4 G4 A4 B4 C#5 D5"), text("Rain on the Slipway"), number(1234567)}}}}};
    CHECK(rendered(document, 40) ==
          "notes                  title      struck\n"
          "A3 B3 C#4 D4 E4 F#4    Rain on\u2026  1234567\n"
          "G4 A4 B4 C#5 D5\n");
}

TEST_CASE("text: on a page too narrow for the table each row is told for itself", "[report][text]") {
    Table table{{{"id"}, {"title", report::Fit::cut, 16}, {"rhythm"}, {"meter"}, {"key"}, {"range"}, {"notes"}}, {}};
    table.rows.push_back({number(7), text("Rain on the Slipway"), text("reel"), text("2/2"), text("D major"),
                          text("D4..B5"), number(12)});
    table.rows.push_back({number(12), text("The Long and Rather Winding Way Home from the Harbour"), Cell(),
                          text("6/8"), text("A mixolydian"), text(""), number(9)});
    const Document document{{table}};
    CHECK(rendered(document, 40) ==
          " id 7  Rain on the Slipway\n"
          "       rhythm reel; meter 2/2; key D\n"
          "       major; range D4..B5; notes 12\n"
          "id 12  The Long and Rather Winding Way\n"
          "       Home from the Harbour\n"
          "       meter 6/8; key A mixolydian;\n"
          "       notes 9\n");
    for (std::size_t width = 40; width <= 120; ++width)
        for (const std::string& line : lines(rendered(document, width))) {
            CAPTURE(width, line);
            CHECK(base::display_width(line) <= width);
        }
}

TEST_CASE("text: headings are wrapped, and bars keep to the page", "[report][text]") {
    report::FingeredBars bars;
    for (const char* name : {"bar 1", "bar 2", "bar 3", "bar 4", "bar 5"})
        bars.bars.push_back({name, {"D4", "E4", "F#4", "G4"}, {"0", "1", "2", "3"}, "    "});
    const Document document{
        {report::Heading{"Learn C#5, which opens 20 tunes, among them Flour on the Fiddle Case"}, bars}};
    CHECK(rendered(document, 40) ==
          "Learn C#5, which opens 20 tunes, among\n"
          "them Flour on the Fiddle Case\n"
          "bar 1             bar 2\n"
          "D4  E4  F#4 G4    D4  E4  F#4 G4\n"
          "0   1   2   3     0   1   2   3\n"
          "\n"
          "bar 3             bar 4\n"
          "D4  E4  F#4 G4    D4  E4  F#4 G4\n"
          "0   1   2   3     0   1   2   3\n"
          "\n"
          "bar 5\n"
          "D4  E4  F#4 G4\n"
          "0   1   2   3\n");
    CHECK(lines(rendered(document, 200))[1] == "bar 1             bar 2             bar 3             bar 4");
}

TEST_CASE("text: what is cut never breaks a letter", "[report][text]") {
    const Document document{{Table{{{"title", report::Fit::cut}, {"n"}},
                                   {{text("éééééééééééééééééééééééééééééééééééééééééééééééééééééééé"), number(1)},
                                    {text("漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字"), number(2)}}}}};
    for (std::size_t width = 40; width < 60; ++width) {
        const std::string out = rendered(document, width);
        CHECK(base::is_utf8(out));
        for (const std::string& line : lines(out)) CHECK(base::display_width(line) <= width);
    }
}

TEST_CASE("text: paragraphs are wrapped at blanks", "[report][text]") {
    const std::string words =
        "One note more and three of the tunes you already hear every week lie under your fingers.";
    CHECK(rendered(Document{{report::Paragraph{words}}}, 40) ==
          "One note more and three of the tunes you\n"
          "already hear every week lie under your\n"
          "fingers.\n");
    CHECK(rendered(Document{{report::Paragraph{words}}}, 200) == words + "\n");
    const std::string long_word(60, 'x');
    CHECK(rendered(Document{{report::Paragraph{"a " + long_word + " b"}}}, 40) ==
          "a\n" + std::string(40, 'x') + "\n" + std::string(20, 'x') + " b\n");
}

TEST_CASE("text: particulars stand in two columns and wrap under themselves", "[report][text]") {
    CHECK(rendered(Document{{report::Particulars{{{"key", "A dorian"}, {"notes needed", "A3 B3 D4 E4 F#4 G4 A4 B4"}}}}},
                   40) ==
          "  key           A dorian\n"
          "  notes needed  A3 B3 D4 E4 F#4 G4 A4 B4\n");
    CHECK(rendered(Document{{report::Particulars{{{"notes", "A3 B3 D4 E4 F#4 G4 A4 B4 C#5 D5 E5 F#5"}}}}}, 40) ==
          "  notes  A3 B3 D4 E4 F#4 G4 A4 B4 C#5 D5\n"
          "         E5 F#5\n");
}

TEST_CASE("text: a title that goes without saying is not said", "[report][text]") {
    CHECK(rendered(Document{{report::Title{"Tunes", true}, report::Heading{"One"}, report::Paragraph{"a"}}}, 80) ==
          "One\na\n");
    CHECK(rendered(Document{{report::Title{"Tunes"}, report::Paragraph{"a"}}}, 80) == "Tunes\na\n");
}

TEST_CASE("text: headings are parted from what stands above them", "[report][text]") {
    CHECK(rendered(Document{{report::Heading{"One"}, report::Paragraph{"a"}, report::Heading{"Two"},
                             report::Music{"X:1\nK:D\n"}}},
                   80) == "One\na\n\nTwo\nX:1\nK:D\n");
}

TEST_CASE("text: colour adds nothing but colour", "[report][text]") {
    Document document = table_of_tunes();
    document.blocks.insert(document.blocks.begin(), report::Heading{"Tunes"});
    const std::string plain = rendered(document, 80);
    std::string coloured = rendered(document, 80, true);
    CHECK(coloured != plain);
    for (std::size_t at = coloured.find('\x1b'); at != std::string::npos; at = coloured.find('\x1b'))
        coloured.erase(at, coloured.find('m', at) - at + 1);
    CHECK(coloured == plain);
    CHECK(plain.find('\x1b') == std::string::npos);
}

TEST_CASE("text: control characters of titles are made harmless", "[report][text]") {
    Document document{{Table{{{"title", report::Fit::cut}}, {{text("Rain\x1b[31m\nwet")}}}, report::Paragraph{"a\x07z"},
                       report::Heading{"h\x1b"}}};
    document.blocks.emplace_back(report::Particulars{{{"file", "x\x1b\ry"}}});
    const std::string out = rendered(document, 80);
    CHECK(out.find('\x1b') == std::string::npos);
    CHECK(out.find('\x07') == std::string::npos);
    CHECK(out.find('\r') == std::string::npos);
    CHECK(lines(out).size() == 6);
}
