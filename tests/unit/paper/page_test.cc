#include "paper/page.h"

#include <catch2/catch.hpp>

using paper::Piece;

namespace {

std::vector<std::size_t> sizes(const std::vector<paper::Page>& pages) {
    std::vector<std::size_t> counts;
    for (const paper::Page& page : pages) counts.push_back(page.pieces.size());
    return counts;
}

}  // namespace

TEST_CASE("page: what does not fit begins the next page whole", "[paper][page]") {
    CHECK(sizes(paper::to_pages({{"a", 60}, {"b", 60}, {"c", 60}}, 130)) == std::vector<std::size_t>{2, 1});
    CHECK(sizes(paper::to_pages({{"a", 300}, {"b", 10}}, 130)) == std::vector<std::size_t>{1, 1});
}

TEST_CASE("page: a heading never stands at the foot without what follows", "[paper][page]") {
    const auto pages = paper::to_pages({{"a", 100}, {"head", 10, true}, {"line", 60}}, 130);
    CHECK(sizes(pages) == std::vector<std::size_t>{1, 2});
}

TEST_CASE("page: a last line goes with the one before it", "[paper][page]") {
    const auto pages = paper::to_pages({{"a", 100}, {"b", 25}, {"last", 25, false, false}}, 130);
    CHECK(sizes(pages) == std::vector<std::size_t>{1, 2});
}

TEST_CASE("page: no page holds more than its height", "[paper][page]") {
    std::vector<Piece> pieces;
    for (int at = 0; at < 60; ++at) pieces.push_back({"x", 7.0 + at % 11, at % 7 == 0, at % 5 != 0});
    std::size_t count = 0;
    for (const paper::Page& page : paper::to_pages(pieces, 120)) {
        CHECK(paper::height_of(page.pieces) <= 120);
        count += page.pieces.size();
    }
    CHECK(count == pieces.size());
}

TEST_CASE("page: lines are counted with room to spare, and a long word takes its own", "[paper][page]") {
    CHECK(paper::lines_of("one two", paper::kPlain, 178) == 1);
    const std::string words(100, 'x');
    CHECK(paper::lines_of(words, paper::kPlain, 50) >= 4);
    CHECK(paper::lines_of("mm mm mm mm", paper::kPlain, 8.5) == 4);
}

TEST_CASE("page: the document asks nobody for anything and says its page numbers", "[paper][page]") {
    const auto pages = paper::to_pages({{"<p>a</p>", 100}, {"<p>b</p>", 100}}, 130);
    const std::string html = paper::document_of("A & B", paper::html_of(pages, {"Mind your hands.", "foot", "run"}));
    CHECK(html.find("default-src 'none'") != std::string::npos);
    CHECK(html.find("<title>A &amp; B</title>") != std::string::npos);
    CHECK(html.find("page 1 of 2") != std::string::npos);
    CHECK(html.find("page 2 of 2") != std::string::npos);
    CHECK(html.find("<script") == std::string::npos);
    CHECK(html.find("http://") == html.find("http://www.w3.org"));
    CHECK(html.find("<p class=\"running\">run</p>") > html.find("page 1 of 2"));
}
