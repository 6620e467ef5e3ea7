#include "base/file_bytes.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <string>

#include "base/failure.h"
#include "support/scratch.h"

TEST_CASE("file bytes: a device, which may never end, is told", "[base][file]") {
    CHECK_THROWS_WITH(base::read_bytes("/dev/zero"), Catch::Contains("it is a device, not a file"));
}

TEST_CASE("file bytes: a file that is too large is told before it is read", "[base][file]") {
    const support::Scratch scratch;
    std::ofstream(scratch.path() / "holes") << "x";
    std::filesystem::resize_file(scratch.path() / "holes", base::kMaxFileBytes + 1);
    CHECK_THROWS_WITH(base::read_bytes(scratch.path() / "holes"), Catch::Contains("larger than 256 MiB"));
}

TEST_CASE("file bytes: bytes are read as they lie on the disk", "[base][file]") {
    const support::Scratch folder;
    std::string bytes;
    for (int i = 0; i < 200000; ++i) bytes += static_cast<char>(i * 31 % 256);
    std::ofstream(folder.path() / "all.abc", std::ios::binary) << bytes;
    std::ofstream(folder.path() / "empty.abc", std::ios::binary) << "";
    CHECK(base::read_bytes(folder.path() / "all.abc") == bytes);
    CHECK(base::read_bytes(folder.path() / "empty.abc").empty());
}

TEST_CASE("file bytes: what cannot be read is a Failure that names it", "[base][file]") {
    const support::Scratch folder;
    CHECK_THROWS_AS(base::read_bytes(folder.path() / "missing.abc"), base::Failure);
    CHECK_THROWS_AS(base::read_bytes(folder.path()), base::Failure);
    CHECK_THROWS_WITH(base::read_bytes(folder.path() / "missing.abc"),
                      Catch::Contains("missing.abc") && Catch::StartsWith("could not read "));
}
