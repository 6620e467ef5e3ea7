#include "answers/beside.h"

#include <catch2/catch.hpp>

#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::BesideQuestion;
using answers::Reason;

const std::string kBeside =
    "X:1\nT:Lamp\nM:4/4\nL:1/8\nK:D\nDFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4|]\n\n"
    "X:2\nT:Lamp Again\nM:4/4\nL:1/8\nK:G\nGBdB GBdB|ABdB A4|GBdB GBcB|AdBA G4|]\n\n"
    "X:3\nT:Silence\nK:D\nz8|]\n";

Reason not_beside(const char* one, const char* other) {
    return support::refusal_of([&] {
               answers::answer(support::collected(kBeside), BesideQuestion{one, other});
           })
        .reason;
}

}  // namespace

TEST_CASE("beside: the other is moved to lie as the first does, and the bar that differs is told",
          "[answers][beside]") {
    const answers::BesideAnswer answer = answers::answer(support::collected(kBeside), BesideQuestion{"1", "2"});
    CHECK(answer.semitones == -5);
    CHECK(answer.is_moved);
    REQUIRE(answer.rows.size() == 4);
    CHECK(answer.rows[0].is_same);
    CHECK_FALSE(answer.rows[2].is_same);
    CHECK(answer.rows[3].is_same);
    CHECK(answer.rows[2].one->abc == "DFAF DFAF");
    CHECK(answer.likeness > 0.8);
}

TEST_CASE("beside: what cannot be laid beside", "[answers][beside]") {
    CHECK(not_beside("1", "1") == Reason::same_setting);
    CHECK(not_beside("1", "nowhere") == Reason::unknown_tune);
}
