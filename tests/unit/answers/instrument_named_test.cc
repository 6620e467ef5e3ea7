#include "answers/instrument_named.h"

#include <catch2/catch.hpp>

#include "support/refused.h"

namespace {

answers::Refusal no_instrument(const std::string& name) {
    return support::refusal_of([&] { answers::instrument_named(name); });
}

}  // namespace

TEST_CASE("instrument named: by its id, or by a beginning that only one has", "[answers][instrument_named]") {
    CHECK(answers::instrument_named("whistle-d").id == "whistle-d");
    CHECK(answers::instrument_named("dg").id == "dg23");
    CHECK(answers::instrument_named("DG").id == "dg23");
}

TEST_CASE("instrument named: a beginning of several names them", "[answers][instrument_named]") {
    const answers::Refusal refusal = no_instrument("whistle");
    CHECK(refusal.reason == answers::Reason::several_instruments);
    CHECK(refusal.others.size() > 2);
    CHECK(refusal.what == "whistle");
}

TEST_CASE("instrument named: a slip of the hand names what is like it", "[answers][instrument_named]") {
    const answers::Refusal refusal = no_instrument("whistel");
    CHECK(refusal.reason == answers::Reason::unknown_instrument);
    REQUIRE_FALSE(refusal.others.empty());
    CHECK(refusal.others.front().starts_with("whist"));
    CHECK(no_instrument("zither").others.empty());
    CHECK(no_instrument("").reason == answers::Reason::unknown_instrument);
}
