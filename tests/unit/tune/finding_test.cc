#include "tune/finding.h"

#include <catch2/catch.hpp>

TEST_CASE("finding: every basis has a word and is read back from it", "[tune][finding]") {
    CHECK(tune::basis_token(tune::Basis::stated) == "stated");
    CHECK(tune::basis_token(tune::Basis::computed) == "computed");
    CHECK(tune::basis_token(tune::Basis::assumed) == "assumed");
    for (const tune::Basis basis : {tune::Basis::stated, tune::Basis::computed, tune::Basis::assumed})
        CHECK(tune::parse_basis(tune::basis_token(basis)) == basis);
    CHECK_FALSE(tune::parse_basis("guessed"));
    CHECK_FALSE(tune::parse_basis(""));
}
