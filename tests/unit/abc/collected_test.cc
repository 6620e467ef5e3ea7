#include "abc/collected.h"

#include <catch2/catch.hpp>

using base::SourceFile;

TEST_CASE("a tune taken out of its file says what the file's header said", "[abc]") {
    const SourceFile source(
        "book.abc",
        "%abc-2.1\n% a remark\nC:the baker\nM:3/4\n%%scale 0.7\n\nX:9\nT:One\nT:Two\nL:1/8\nK:D % home\nABc|\n");
    CHECK(abc::collected(source, 2, "book.abc:6") ==
          "X:2\n% from book.abc:6\nT:One\nT:Two\nC:the baker\nM:3/4\n%%scale 0.7\nL:1/8\nK:D % home\nABc|\n\n");
}

TEST_CASE("the tune's own meter, unit and tempo stand alone", "[abc]") {
    const SourceFile source("book.abc", "M:3/4\nL:1/4\nR:waltz\n\nX:1\nT:One\nM:2/4\nR:polka\nK:D\n[L:1/16]A|\n");
    CHECK(abc::collected(source, 1, "b") ==
          "X:1\n% from b\nT:One\nL:1/4\nR:waltz\nM:2/4\nR:polka\nK:D\n[L:1/16]A|\n\n");
}

TEST_CASE("without a header, without a number, with other line ends", "[abc]") {
    CHECK(abc::collected(SourceFile("a", "X:3\r\nT:t\r\nK:C\r\nC|\r\n"), 1, "a") == "X:1\n% from a\nT:t\nK:C\nC|\n\n");
    CHECK(abc::collected(SourceFile("a", "X:3\rT:t\rK:C\rC|"), 1, "a") == "X:1\n% from a\nT:t\nK:C\nC|\n\n");
}
