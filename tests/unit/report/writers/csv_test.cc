#include "report/writers/csv.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using report::Cell;
using report::Document;
using report::render_csv;
using report::Table;

namespace {

std::string csv_of(const std::string& text) { return render_csv(Document{{Table{{{"t"}}, {{Cell(text)}}}}}); }

// Fields of one record set, by the grammar of RFC 4180, section 2.
std::vector<std::vector<std::string>> parsed(const std::string& csv) {
    std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
    bool quoted = false;
    for (std::size_t at = 0; at < csv.size(); ++at) {
        if (quoted) {
            if (csv[at] != '"')
                rows.back().back() += csv[at];
            else if (at + 1 < csv.size() && csv[at + 1] == '"')
                rows.back().back() += csv[at++];
            else
                quoted = false;
        } else if (csv[at] == '"') {
            quoted = true;
        } else if (csv[at] == ',') {
            rows.back().emplace_back();
        } else if (csv.compare(at, 2, "\r\n") == 0) {
            ++at;
            if (at + 1 < csv.size()) rows.emplace_back(1);
        } else {
            rows.back().back() += csv[at];
        }
    }
    return rows;
}

}  // namespace

TEST_CASE("csv: a header line, then the rows, each ended by CR LF", "[report][csv]") {
    // Source: RFC 4180, section 2.
    const Document document{
        {Table{{{"id"}, {"title", report::Fit::cut}, {"share"}, {"number"}},
               {{Cell(std::int64_t{7}), Cell(std::string("Rain")), Cell(report::Share{0.25}), Cell()},
                {Cell(std::int64_t{-8}), Cell(std::string("")), Cell(report::Share{1}), Cell(std::string("12"))}}}}};
    CHECK(render_csv(document) == "id,title,share,number\r\n7,Rain,0.2500,\r\n-8,,1.0000,12\r\n");
}

TEST_CASE("csv: only tables are written", "[report][csv]") {
    CHECK(render_csv(Document{{report::Paragraph{"words"}, report::Heading{"h"}, report::Particulars{{{"a", "b"}}}}}) ==
          "");
}

TEST_CASE("csv: commas, quotes and line ends are quoted, quotes doubled", "[report][csv]") {
    // Source: RFC 4180, section 2, rules 5 to 7.
    CHECK(csv_of("Rain, wet") == "t\r\n\"Rain, wet\"\r\n");
    CHECK(csv_of("the \"old\" one") == "t\r\n\"the \"\"old\"\" one\"\r\n");
    CHECK(csv_of("two\nlines") == "t\r\n\"two\nlines\"\r\n");
    CHECK(csv_of("cr\rhere") == "t\r\n\"cr\rhere\"\r\n");
    CHECK(csv_of("Café ♯") == "t\r\nCafé ♯\r\n");
}

TEST_CASE("csv: what a spreadsheet would take for a formula is led by an apostrophe", "[report][csv]") {
    CHECK(csv_of("=1+1") == "t\r\n'=1+1\r\n");
    CHECK(csv_of("+tune") == "t\r\n'+tune\r\n");
    CHECK(csv_of("-tune") == "t\r\n'-tune\r\n");
    CHECK(csv_of("@tune") == "t\r\n'@tune\r\n");
    CHECK(csv_of("=HYPERLINK(\"a\",\"b\")") == "t\r\n\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"\r\n");
    CHECK(csv_of("\t=1") == "t\r\n'\t=1\r\n");
    CHECK(csv_of("a=1") == "t\r\na=1\r\n");
    CHECK(csv_of(" =1") == "t\r\n' =1\r\n");
    CHECK(csv_of("\uFF1D1+1") == "t\r\n'\uFF1D1+1\r\n");  // full width
    CHECK(csv_of("\uFF201") == "t\r\n'\uFF201\r\n");
    CHECK(csv_of("\u00A0=1") == "t\r\n'\u00A0=1\r\n");  // a blank that does not break
    CHECK(csv_of("\u3000\u200B\uFEFF+1") == "t\r\n'\u3000\u200B\uFEFF+1\r\n");
    CHECK(csv_of("\u00A0a") == "t\r\n\u00A0a\r\n");
}

TEST_CASE("csv: a number below nothing stays a number", "[report][csv]") {
    CHECK(render_csv(Document{{Table{{{"n"}}, {{Cell(std::int64_t{-3})}}}}}) == "n\r\n-3\r\n");
}

TEST_CASE("csv: every text is read back as it was, apostrophe apart", "[report][csv]") {
    const std::string pieces[] = {",", "\"", "\r\n", "\n", "=", "a", " ", "é", "'", ";"};
    unsigned state = 5;
    for (int round = 0; round < 2000; ++round) {
        std::vector<std::vector<std::string>> texts(3, std::vector<std::string>(2));
        Table table{{{"one"}, {"two"}}, {}};
        for (auto& row : texts) {
            auto& cells = table.rows.emplace_back();
            for (std::string& text : row) {
                for (int piece = 0; piece < 5; ++piece) {
                    state = state * 1664525U + 1013904223U;
                    text += pieces[(state >> 16) % 10];
                }
                cells.emplace_back(text);
                const std::size_t first = text.find_first_not_of(" \r\n");
                const bool is_formula = first != std::string::npos && text[first] == '=';
                if (is_formula || text[0] == '\r') text.insert(0, "'");
            }
        }
        auto rows = parsed(render_csv(Document{{table}}));
        rows.erase(rows.begin());
        if (rows != texts) FAIL("round " << round);
    }
    SUCCEED();
}
