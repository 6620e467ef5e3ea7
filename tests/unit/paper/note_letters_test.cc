#include "paper/note_letters.h"

#include <catch2/catch.hpp>

using paper::Names;

TEST_CASE("note letters: the octave turns at C, in words and in dots", "[paper][note_letters]") {
    CHECK(paper::in_words(57, 0, Names::letters) == "low A");
    CHECK(paper::in_words(59, 0, Names::letters) == "low B");
    CHECK(paper::in_words(60, 0, Names::letters) == "C");
    CHECK(paper::in_words(71, 0, Names::letters) == "B");
    CHECK(paper::in_words(72, 0, Names::letters) == "high C");
    CHECK(paper::in_words(84, 0, Names::letters) == "top C");
    CHECK(paper::in_words(47, 0, Names::letters) == "deep B");
    CHECK(paper::letters_of(73, 0, Names::letters).octave == 1);
    CHECK(paper::letters_of(57, 0, Names::letters).octave == -1);
}

TEST_CASE("note letters: spelled as the tune's signature has it", "[paper][note_letters]") {
    CHECK(paper::in_words(66, 1, Names::letters) == "F sharp");
    CHECK(paper::in_words(70, -1, Names::letters) == "B flat");
    CHECK(paper::in_words(73, 2, Names::fixed_do) == "high do sharp");
    CHECK(paper::in_words(67, 0, Names::fixed_do) == "sol");
    CHECK(paper::letters_of(66, 1, Names::none).name.empty());
    CHECK(paper::in_words(66, 1, Names::none) == "F sharp");  // words need one
}

TEST_CASE("note letters: a sharp takes room, a longer name more", "[paper][note_letters]") {
    const double plain = paper::width_of(paper::letters_of(65, 1, Names::letters), 5.8);
    const double sharp = paper::width_of(paper::letters_of(66, 1, Names::letters), 5.8);
    CHECK(sharp > plain + 1);
    CHECK(paper::width_of(paper::letters_of(67, 1, Names::fixed_do), 5.8) > plain);
    CHECK(paper::width_of(paper::letters_of(66, 1, Names::none), 5.8) == 0);
}

TEST_CASE("note letters: words for names", "[paper][note_letters]") {
    CHECK(paper::parse_names("fixed-do") == Names::fixed_do);
    CHECK(paper::parse_names("letters") == Names::letters);
    CHECK(paper::parse_names("none") == Names::none);
    CHECK_FALSE(paper::parse_names("Letters"));
}
