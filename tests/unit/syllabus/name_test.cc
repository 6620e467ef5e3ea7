#include "syllabus/name.h"

#include <catch2/catch.hpp>

#include <string>

TEST_CASE("name of a term: shown as written, compared without case and accents", "[syllabus]") {
    CHECK(syllabus::read_name("  Spring   Term ").text == "Spring Term");
    CHECK(syllabus::read_name("ÉTÉ").folded == syllabus::read_name("ete").folded);
    for (const std::string& wrong : {std::string(""), std::string("  "), std::string("a\tb"), std::string("a\0b", 3),
                                     std::string("\xff"), std::string(61, 'x')})
        CHECK_THROWS_AS(syllabus::read_name(wrong), syllabus::NameFault);
    CHECK(syllabus::read_name(std::string(60, 'x')).text.size() == 60);
}
