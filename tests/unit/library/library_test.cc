#include "library/library.h"
#include "library/content_hash.h"

#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/intake.h"
#include "sample.h"
#include "support/scratch.h"

using library::Library;

TEST_CASE("library: what cannot be opened is told in a sentence that helps", "[library][open]") {
    const support::Scratch scratch;
    CHECK_THROWS_WITH(Library::open_existing(scratch / "l.db"),
                      Catch::Contains("there is no library yet") && Catch::Contains("gamut import"));
    CHECK_FALSE(std::filesystem::exists(scratch / "l.db"));
    CHECK_THROWS_WITH(Library::open_existing(scratch.path()), Catch::Contains("it is a folder"));
    scratch.write("empty.db", "");
    CHECK_THROWS_WITH(Library::open_existing(scratch / "empty.db"), Catch::Contains("nothing in it"));
}

TEST_CASE("library: a damaged one is a failure, not a wrong answer", "[library][open]") {
    const support::Scratch scratch;
    {
        library::Intake intake = library::Intake::open(scratch / "l.db");
        for (int i = 0; i < 40; ++i) {
            std::vector<collection::StoredSetting> settings;
            for (int k = 0; k < 20; ++k)
                settings.push_back(sample::setting(std::to_string(k), "Lamp " + std::to_string(i),
                                                   static_cast<std::uint64_t>(i * 20 + k)));
            intake.store_file(sample::file("/t/" + std::to_string(i) + ".abc", settings));
        }
        intake.close();
    }
    std::string bytes = scratch.read("l.db");
    for (std::size_t at = 8192; at < bytes.size(); ++at) bytes[at] = static_cast<char>(at * 7);
    scratch.write("l.db", bytes);
    CHECK_THROWS_AS(Library::open_existing(scratch / "l.db").select_tunes({}), base::Failure);
}

TEST_CASE("library: asking changes no byte", "[library][open]") {
    const support::Scratch scratch;
    {
        library::Intake intake = library::Intake::open(scratch / "l.db");
        intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11)}));
        intake.close();
    }
    const std::string before = scratch.read("l.db");
    {
        const Library library = Library::open_existing(scratch / "l.db");
        collection::Selection words;
        words.title = "lamp";
        CHECK(library.select_tunes(words).matched == 1);
        CHECK(library.tunes_titled("lamp").size() == 1);
    }
    CHECK(scratch.read("l.db") == before);
    CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()), {}) == 1);
}

TEST_CASE("content hash: 128 bits of XXH3", "[library][hash]") {
    // Of nothing, with seed 0. Source: the library's own specification, doc/xxhash_spec.md; value from memory.
    CHECK(library::content_hash("") == "99aa06d3014798d86001c324468d497f");
    CHECK(library::content_hash("a") != library::content_hash("b"));
}
