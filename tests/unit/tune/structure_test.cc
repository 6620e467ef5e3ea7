#include "tune/structure.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

namespace {

tune::Part part(const char* label) {
    tune::Part made;
    made.label = label;
    return made;
}

tune::Part closing(const char* label, std::uint32_t repeat_from) {
    tune::Part made = part(label);
    made.is_repeated = true;
    made.repeat_from = repeat_from;
    return made;
}

std::string form(std::vector<tune::Part> parts) {
    tune::Structure structure;
    structure.parts = std::move(parts);
    return tune::form_of(structure);
}

}  // namespace

TEST_CASE("structure: a form names the parts as they are played", "[tune][structure]") {
    CHECK(form({}) == "");
    CHECK(form({part("A"), part("B")}) == "AB");
    CHECK(form({closing("A", 0), closing("B", 1)}) == "AABB");
    CHECK(form({closing("A", 0), part("B"), closing("C", 2)}) == "AABCC");
}

TEST_CASE("structure: one repeat over several parts plays all of them before the first again", "[tune][structure]") {
    CHECK(form({part("A"), closing("B", 0)}) == "ABAB");
    CHECK(form({part("A"), part("B"), closing("C", 1), part("D")}) == "ABCBCD");
}

TEST_CASE("structure: labels of several letters are parted by blanks", "[tune][structure]") {
    CHECK(form({part("Slow"), closing("Quick", 0)}) == "Slow Quick Slow Quick");
}
