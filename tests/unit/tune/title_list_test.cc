#include "tune/title_list.h"

#include <catch2/catch.hpp>

using tune::read_title_list;

namespace {

std::vector<std::string> titles(std::string_view text) {
    std::vector<std::string> titles;
    for (const auto& listed : read_title_list(text)) titles.push_back(listed.text);
    return titles;
}

using Titles = std::vector<std::string>;

}  // namespace

TEST_CASE("title list: a title a line, without numbers, bullets and ticks", "[tune][title-list]") {
    CHECK(
        titles(
            "1. Wet Monday\n12) Soup\n- Soup\n * Soup\n[ ] Soup\n[x] 3. Soup\n\u2022 Soup\n\u2610 Soup\n\u2713 Soup") ==
        Titles{"Wet Monday", "Soup", "Soup", "Soup", "Soup", "Soup", "Soup", "Soup", "Soup"});
}

TEST_CASE("title list: what belongs to a title stays", "[tune][title-list]") {
    CHECK(titles("10 Past Two\n-ish\n1.5 Litres\n(Wet) Monday\n3\n[Soup]") ==
          Titles{"10 Past Two", "-ish", "1.5 Litres", "(Wet) Monday", "3", "[Soup]"});
}

TEST_CASE("title list: remarks behind a tab, empty lines and comments are passed over", "[tune][title-list]") {
    CHECK(titles("# my list\n\n  # still\nSoup\tin G, from the ferry\n\t \n1.\n- \n1.\tSoup\tG\n") ==
          Titles{"Soup", "Soup"});
    const auto listed = read_title_list("# a\r\n\r\nSoup\r\rWet Monday");
    REQUIRE(listed.size() == 2);
    CHECK(listed[0].line == 3);
    CHECK(listed[1].line == 5);
}

TEST_CASE("title list: a line that is not UTF-8 is Windows-1252, and no other line with it", "[tune][title-list]") {
    const auto listed = read_title_list("\xEF\xBB\xBFL\xC3\xA9on\nL\xE9on\n\x95 Soup\n");
    REQUIRE(listed.size() == 3);
    CHECK(listed[0].text == "Léon");
    CHECK(listed[0].is_utf8);
    CHECK(listed[1].text == "Léon");
    CHECK_FALSE(listed[1].is_utf8);
    CHECK(listed[2].text == "Soup");  // a bullet there
    CHECK(listed[2].line == 3);
}

TEST_CASE("title list: odd bytes do no harm", "[tune][title-list]") {
    CHECK(titles("").empty());
    CHECK(titles(std::string("\0\n\x01\n", 4)).empty());
    CHECK(titles("\xFF\xFE").size() == 1);
    CHECK(titles(std::string(1'000'000, '-')).size() == 1);
    std::string many;
    for (int at = 0; at < 200'000; ++at) many += "- ";
    CHECK(titles(many).empty());
}
