#include "tune/title.h"

#include <catch2/catch.hpp>
#include <string>

using tune::fold_title;

TEST_CASE("title: case, accents and punctuation do not matter", "[tune][title]") {
    CHECK(fold_title("RAIN on the Slipway!") == "rain on the slipway");
    CHECK(fold_title("Vítek's  Lantern") == "viteks lantern");
    CHECK(fold_title("Viteks lantern") == "viteks lantern");
    CHECK(fold_title("  Tin-Gate,   No. 2 (reel) ") == "tin gate no 2 reel");
    CHECK(fold_title("Straße nach Süden") == "strasse nach suden");
    CHECK(fold_title("Cafe\u0301") == fold_title("Café"));
}

TEST_CASE("title: the apostrophe of printed text is an apostrophe too", "[tune][title]") {
    CHECK(fold_title("The Miller\u2019s Kettle") == fold_title("The Miller's Kettle"));
    CHECK(fold_title("Miller\u2018s Kettle") == fold_title("Millers Kettle"));
}

TEST_CASE("title: dashes and quotes of printed text are punctuation", "[tune][title]") {
    CHECK(fold_title("Tin\u2013Gate") == fold_title("Tin-Gate"));
    CHECK(fold_title("\u201CTin Gate\u201D") == "tin gate");
}

TEST_CASE("title: a leading article is left out", "[tune][title]") {
    CHECK(fold_title("The Ferry") == "ferry");
    CHECK(fold_title("A Wet Monday") == "wet monday");
    CHECK(fold_title("An Umbrella") == "umbrella");
    CHECK(fold_title("La Lanterne") == "lanterne");
    CHECK(fold_title("Les Deux Quais") == "deux quais");
    CHECK(fold_title("Die Nasse Treppe") == "nasse treppe");
    CHECK(fold_title("The") == "the");
    CHECK(fold_title("Theo's Ferry") == "theos ferry");
    CHECK(fold_title("To the Ferry") == "to the ferry");
}

TEST_CASE("title: a trailing article after a comma is left out", "[tune][title]") {
    CHECK(fold_title("Ferry, The") == "ferry");
    CHECK(fold_title("Wet Monday, A") == "wet monday");
    CHECK(fold_title("Lanterne, La") == "lanterne");
    CHECK(fold_title("Ferry The") == "ferry the");
    CHECK(fold_title("What I Thank You For, Said the") == "what i thank you for said the");
}

TEST_CASE("title: an t- is an article", "[tune][title]") {
    CHECK(fold_title("An t-Oileán Fliuch") == fold_title("Oileán Fliuch"));
}

TEST_CASE("title: folding again changes nothing", "[tune][title]") {
    for (const char* title : {"RAIN on the Slipway!", "Ferry, The", "Vítek's Lantern", "", "!!!", "漢字 reel", "№ 7"}) {
        CAPTURE(title);
        CHECK(fold_title(fold_title(title)) == fold_title(title));
    }
    CHECK(fold_title("") == "");
    CHECK(fold_title("!!!") == "");
}
