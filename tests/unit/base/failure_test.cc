#include "base/failure.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <string>

TEST_CASE("failure: one sentence says what was done, to what, and what the system said", "[base][failure]") {
    CHECK(std::string(base::Failure("open", "tunes.db", "disk full").what()) == "could not open tunes.db: disk full");
}

TEST_CASE("failure: an errno value speaks the system's words", "[base][failure]") {
    CHECK_THROWS_WITH(base::fail_with_errno("read", "a.abc", ENOENT),
                      "could not read a.abc: No such file or directory");
    CHECK_THROWS_AS(base::fail_with_errno("read", "a.abc", EACCES), base::Failure);
}
