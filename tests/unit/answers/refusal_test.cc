#include "answers/refusal.h"

#include <catch2/catch.hpp>
#include <set>

TEST_CASE("refusal: every reason has a token of its own", "[answers][refusal]") {
    std::set<std::string_view> tokens;
    constexpr int kLast = static_cast<int>(answers::Reason::not_to_be_met);
    for (int reason = 0; reason <= kLast; ++reason) {
        const std::string_view token = answers::reason_token(static_cast<answers::Reason>(reason));
        CHECK_FALSE(token.empty());
        CHECK(token.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
        CHECK(tokens.insert(token).second);
    }
    CHECK(answers::reason_token(answers::Reason::unknown_tune) == "unknown-tune");
}
