#include <catch2/catch.hpp>

#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

namespace {

std::vector<std::int64_t> ids(const std::vector<tune::TuneRecord>& records) {
    std::vector<std::int64_t> ids;
    for (const auto& record : records) ids.push_back(record.id.value);
    return ids;
}

using Ids = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("tunes titled: the exact title first, else a part", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    auto second_title = sample::setting("4", "Anchor", 44);
    second_title.titles.push_back("The Caf\xC3\xA9 Lamp");
    intake.store_file(sample::file(
        "/t/a.abc",
        {sample::setting("1", "The Lamp", 11), sample::setting("2", "Lamp, The", 22),
         sample::setting("3", "Lamplighter's Rope", 33), second_title, sample::setting("5", "Gone Lamp", 55)}));
    intake.store_file(
        sample::file("/t/a.abc", {sample::setting("1", "The Lamp", 11), sample::setting("2", "Lamp, The", 22),
                                  sample::setting("3", "Lamplighter's Rope", 33), second_title}));
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    CHECK(ids(library.tunes_titled("LAMP")) == Ids{1, 2});
    CHECK(ids(library.tunes_titled("the lamp")) == Ids{1, 2});
    CHECK(ids(library.tunes_titled("amp")) == Ids{4, 1, 2, 3});  // by title: anchor, lamp, lamp, lamplighters rope
    CHECK(ids(library.tunes_titled("lamplighters")) == Ids{3});
    CHECK(ids(library.tunes_titled("cafe lamp")) == Ids{4});
    CHECK(ids(library.tunes_titled("gone lamp")).empty());
    CHECK(ids(library.tunes_titled("%")).empty());
    CHECK(ids(library.tunes_titled("")).empty());
}

TEST_CASE("titled tunes: every tune with all its titles, without those that are gone", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    auto two_titles = sample::setting("2", "The Caf\xC3\xA9 Lamp", 22);
    two_titles.titles.push_back("Anchor");
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp, The", 11), two_titles,
                                                sample::setting("3", "", 33), sample::setting("4", "Gone", 44)}));
    intake.store_file(
        sample::file("/t/a.abc", {sample::setting("1", "Lamp, The", 11), two_titles, sample::setting("3", "", 33)}));
    const auto tunes = library::Library::open_existing(scratch / "l.db").titled_tunes();
    REQUIRE(tunes.size() == 2);
    CHECK(tunes[0].id.value == 1);
    CHECK(tunes[0].folded == std::vector<std::string>{"lamp"});
    CHECK(tunes[1].title == "The Caf\xC3\xA9 Lamp");
    CHECK(tunes[1].folded == std::vector<std::string>{"cafe lamp", "anchor"});
}
