#include "abc/order_word.h"

#include <catch2/catch.hpp>

#include "written.h"

using Kind = music::OrderMark::Kind;

TEST_CASE("order word: words of ABC 2.1 and of tune books", "[abc][order_word]") {
    for (const char* text : {"fine", "Fine", "_Fine", "   Fine", "fine."})
        CHECK(abc::read_order_word(text) == Kind::fine);
    for (const char* text : {"D.C.", "_D.C.", "D.C", "DC", "dacapo", "D.C.alfine", "D.C. al Fine", "Da Capo"})
        CHECK(abc::read_order_word(text) == Kind::da_capo);
    for (const char* text : {"D.S.", "_D.S.", "Dal segno", "D.S.alcoda"})
        CHECK(abc::read_order_word(text) == Kind::dal_segno);
    CHECK(abc::read_order_word("fermata") == Kind::fermata);
    for (const char* text :
         {"", "F", "Dm", "D", "SEGUE", "segno", "D.C. when the ferry has left the quay", "Dsus4", "DCD"})
        CHECK_FALSE(abc::read_order_word(text));
}

TEST_CASE("order word: a mark keeps its place", "[abc][order_word]") {
    const music::Melody melody = written::AbcFile(written::tune_of("C4 !fine!E4|\"D.C.\"G4A4 H||")).only().melody;
    REQUIRE(melody.order.size() == 3);
    CHECK(melody.order[0].kind == Kind::fine);
    CHECK(melody.order[0].before_sound == 1);
    CHECK(melody.order[0].bar == 0);
    CHECK(melody.order[1].kind == Kind::da_capo);
    CHECK(melody.order[1].before_sound == 2);
    CHECK(melody.order[1].bar == 1);
    CHECK(melody.order[2].kind == Kind::fermata);
    CHECK(melody.order[2].before_sound == 4);
    CHECK(melody.order[2].bar == 1);
}
