#include "tune/finding.h"

#include <catch2/catch.hpp>

TEST_CASE("finding: every basis has a word and is read back from it", "[tune][finding]") {
    CHECK(tune::basis_token(tune::Basis::stated) == "stated");
    CHECK(tune::basis_token(tune::Basis::computed) == "computed");
    CHECK(tune::basis_token(tune::Basis::assumed) == "assumed");
    CHECK(tune::basis_token(tune::Basis::title) == "title");
    CHECK(tune::basis_token(tune::Basis::said) == "said");
    for (const tune::Basis basis :
         {tune::Basis::stated, tune::Basis::computed, tune::Basis::assumed, tune::Basis::title, tune::Basis::said})
        CHECK(tune::parse_basis(tune::basis_token(basis)) == basis);
    CHECK_FALSE(tune::parse_basis("guessed"));
    CHECK_FALSE(tune::parse_basis(""));
}

TEST_CASE("finding: what nobody says is a guess", "[tune][finding]") {
    CHECK(tune::is_guess(tune::Basis::computed));
    CHECK(tune::is_guess(tune::Basis::assumed));
    CHECK_FALSE(tune::is_guess(tune::Basis::stated));
    CHECK_FALSE(tune::is_guess(tune::Basis::title));
    CHECK_FALSE(tune::is_guess(tune::Basis::said));
}
