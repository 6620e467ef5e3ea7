#include "report/writers/drawing.h"

#include <catch2/catch.hpp>

#include "report/writers/letter_width.h"

TEST_CASE("drawing: numbers are short and never in a notation of powers", "[report][drawing]") {
    CHECK(report::number(12) == "12");
    CHECK(report::number(1.5) == "1.5");
    CHECK(report::number(0.345) == "0.34");
    CHECK(report::number(-0.001) == "0");
    CHECK(report::number(1e6) == "1000000");
}

TEST_CASE("drawing: text is harmless in the drawing, its title and its marks", "[report][drawing]") {
    report::Drawing drawing(80, "<script>", "a \"b\" & c");
    drawing.begin("data-note", "\"><script>");
    drawing.words(1, 2, "</text><script>alert(1)</script>\x1b", 4);
    drawing.end();
    const std::string svg = drawing.svg(10);
    CHECK(svg.find("<script") == std::string::npos);
    CHECK(svg.find('\x1b') == std::string::npos);
    CHECK(svg.find("<title>&lt;script&gt;</title><desc>a &quot;b&quot; &amp; c</desc>") != std::string::npos);
    CHECK(svg.find("viewBox=\"0 0 80 10\"") != std::string::npos);
}

TEST_CASE("drawing: another one stands in it without its own title", "[report][drawing]") {
    report::Drawing inner(10, "inner", "inner");
    inner.disc(1, 1, 1);
    report::Drawing outer(20, "outer", "outer");
    outer.put(inner, 5, 6);
    CHECK(outer.svg(9).find("<g transform=\"translate(5 6)\"><circle") != std::string::npos);
    CHECK(outer.svg(9).find("inner") == std::string::npos);
}

TEST_CASE("letter width: as the font's own table has it", "[report][letter_width]") {
    // NimbusSans-Bold.afm and -Regular.afm 1.00: A 722 and 667, i 278 and 222, blank 278.
    CHECK(report::width_of("A", report::Weight::bold) == Approx(0.722));
    CHECK(report::width_of("Ai ", report::Weight::regular) == Approx(0.667 + 0.222 + 0.278));
    CHECK(report::width_of("É", report::Weight::regular) == Approx(0.944));  // never too small
    CHECK(report::width_of("", report::Weight::regular) == 0);
}
