#include "abc/order_word.h"

#include <catch2/catch.hpp>

#include "written.h"

using Kind = music::OrderMark::Kind;

TEST_CASE("order word: words of ABC 2.1 and of tune books", "[abc][order_word]") {
    for (const char* text : {"fine", "Fine", "_Fine", "   Fine", "fine."})
        CHECK(abc::read_order_word(text) == Kind::fine);
    for (const char* text : {"D.C.", "_D.C.", "D.C", "DC", "dacapo", "D.C.alfine", "D.C. al Fine", "Da Capo"})
        CHECK(abc::read_order_word(text) == Kind::da_capo);
    for (const char* text : {"D.S.", "_D.S.", "Dal segno", "D.S. al Fine"})
        CHECK(abc::read_order_word(text) == Kind::dal_segno);
    for (const char* text : {"D.S.alcoda", "D.C. al Coda", "dacoda"})
        CHECK(abc::read_order_word(text) == Kind::al_coda);
    for (const char* text : {"segno", "^Segno", "_SEGNO"}) CHECK(abc::read_order_word(text) == Kind::segno);
    CHECK(abc::read_order_word("fermata") == Kind::fermata);
    for (const char* text :
         {"", "F", "Dm", "D", "SEGUE", "coda", "D.C. when the ferry has left the quay", "Dsus4", "DCD"})
        CHECK_FALSE(abc::read_order_word(text));
}

TEST_CASE("order word: a chord over a bass is none", "[abc][order_word]") {
    for (const char* chord : {"D6/C", "D/C", "D7/C#", "Dsus4/C", "D S", "D C"}) {
        CAPTURE(chord);
        CHECK_FALSE(abc::read_order_word(chord));
    }
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

TEST_CASE("order word: letters stand for the signs that ABC 2.1 or U: gives them", "[abc][order_word]") {
    const auto kinds = [](const std::string& music, const std::string& fields = "") {
        std::vector<Kind> kinds;
        const tune::Setting setting = written::AbcFile(written::tune_of(music, fields)).only();
        for (const music::OrderMark& mark : setting.melody.order) kinds.push_back(mark.kind);
        return kinds;
    };
    CHECK(kinds("SC4 HE4|") == std::vector{Kind::segno, Kind::fermata});
    CHECK(kinds("SC4 HE4|", "U:S=!trill!\nU:H=!fine!\n") == std::vector{Kind::fine});
    CHECK(kinds("WC4 E4|", "U:W=!D.S.!\n") == std::vector{Kind::dal_segno});
}
