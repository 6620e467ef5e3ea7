#include "report/writers/curves.h"

#include <catch2/catch.hpp>

namespace {

report::Curves two_curves() {
    return {"Tunes & notes",
            "notes learnt",
            "tunes open",
            {{"best", {{0, 1}, {1, 8}, {2, 9}}}, {"yours", {{0, 1}, {1, 2}, {2, 9}}}}};
}

}  // namespace

TEST_CASE("curves: said in words, told apart without colour", "[report][curves]") {
    const std::string svg = report::draw_curves(two_curves(), 150);
    CHECK(svg.find("<title>Tunes &amp; notes</title>") != std::string::npos);
    CHECK(svg.find("best: 9 tunes open after 2 notes learnt; yours: 9 tunes open after 2 notes learnt.") !=
          std::string::npos);
    CHECK(svg.find("stroke-dasharray") != std::string::npos);
    CHECK(svg.find("#") == svg.find("#000"));
    CHECK(svg.find(">best</text>") != std::string::npos);
}

TEST_CASE("curves: names at one end do not cover one another", "[report][curves]") {
    const std::string svg = report::draw_curves(two_curves(), 150);
    const auto y_of = [&](const char* name) {
        const std::size_t at = svg.rfind("y=\"", svg.find(name));
        return std::strtod(svg.c_str() + at + 3, nullptr);
    };
    CHECK(std::abs(y_of(">best<") - y_of(">yours<")) > 3.4);
}

TEST_CASE("curves: nothing in them is no fault", "[report][curves]") {
    CHECK(report::draw_curves({"Empty", "x", "y", {}}, 80).find("<svg") == 0);
    CHECK(report::draw_curves({"Empty", "x", "y", {{"none", {}}}}, 80).find(">none<") == std::string::npos);
}
