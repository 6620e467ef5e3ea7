#include "guide/markdown.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "guide/pages.h"
#include "report/writers/text.h"

namespace {

std::string shown(std::string_view markdown, std::size_t columns = 44) {
    return report::render_text(guide::document_of(markdown), {columns, false});
}

}  // namespace

TEST_CASE("A page of the guide is text to read on a terminal", "[guide]") {
    CHECK(shown("# Head\n\nOne line\nand another.\n\n## Part\nText\n") ==
          "Head\n\nOne line and another.\n\nPart\n\nText\n");
    CHECK(shown("A paragraph that is longer than the page is wide goes on below.\n") ==
          "A paragraph that is longer than the page is\nwide goes on below.\n");
}

TEST_CASE("Signs of Markdown are left out, and what stands in typewriter letters stays", "[guide]") {
    CHECK(shown("**Bold** and *slanted*, `--csv`, 2 * 3, `a*b*c`.") == "Bold and slanted, --csv, 2 * 3, a*b*c.\n");
    CHECK(shown("`gamut path` orders; `R:`") == "`gamut path` orders; R:\n");
    CHECK(shown("See [a term](term.md), [the sea](https://x.example/a.md).", 80) ==
          "See a term (gamut guide term), the sea (https://x.example/a.md).\n");
    CHECK(shown("An open ` and an open [bracket") == "An open ` and an open [bracket\n");
}

TEST_CASE("Lists hang on their signs", "[guide]") {
    CHECK(shown("- one that is long enough to be\n  broken somewhere\n- two\n\nAfter.\n", 40) ==
          "  -  one that is long enough to be\n     broken somewhere\n  -  two\n\nAfter.\n");
    CHECK(shown("1. first\n2. second\n") == "  1.  first\n  2.  second\n");
}

TEST_CASE("A table of the guide keeps to the page", "[guide]") {
    CHECK(shown("| you write | it means |\n|---|---|\n| `x | y` | z |\n", 60).find("x | y") != std::string::npos);
    CHECK(shown("| note | what |\n|---|---|\n| `C# D` | every C sharp that is within the compass |\n", 40) ==
          "note  what\nC# D  every C sharp that is within the\n      compass\n");
    CHECK(shown("| a | b |\n|---|---|\n| one |\n| 1 | 2 | 3 |\n") == "a    b\none\n1    2\n");
}

TEST_CASE("A fenced block stays as it is, and is indented where there is room", "[guide]") {
    CHECK(shown("```\n$ gamut path  --steps 3\n\n**\n```\nText\n") ==
          "    $ gamut path  --steps 3\n\n    **\n\nText\n");
    CHECK(shown("```\n" + std::string(42, 'x') + "\n```\n") == "  " + std::string(42, 'x') + "\n");
    CHECK(shown("```\n" + std::string(50, 'x') + "\n```\n") == std::string(50, 'x') + "\n");
    CHECK(shown("```\nnever closed") == "    never closed\n");
}

TEST_CASE("The pages of the guide are there whole, and none of their signs is left on a terminal", "[guide]") {
    std::set<std::string_view> topics;
    for (const guide::Page& page : guide::pages()) {
        INFO(page.topic);
        CHECK(topics.insert(page.topic).second);
        CHECK_FALSE(page.question.empty());
        CHECK(page.markdown.starts_with("# "));
        CHECK(page.markdown.ends_with("\n"));
        const std::string text = shown(page.markdown, 80);
        CHECK(text.find("**") == std::string::npos);
        CHECK(text.find("|---") == std::string::npos);
    }
    CHECK(topics.size() >= 12);
}
