#include "library/syllabi.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "base/failure.h"
#include "library/intake.h"
#include "sample.h"
#include "support/scratch.h"

using library::KeptSyllabus;

namespace {

struct SyllabiShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    SyllabiShelf() {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11)}));
        intake.close();
    }
};

}  // namespace

TEST_CASE("syllabi: kept by name, listed, and forgotten", "[library]") {
    const SyllabiShelf shelf;
    CHECK(library::kept_syllabi(shelf.file).empty());
    CHECK_FALSE(library::kept_syllabus(shelf.file, "monday").has_value());
    const KeptSyllabus monday{"monday", "Monday", "{}"};
    const KeptSyllabus autumn{"autumn", "Autumn", "[]"};
    CHECK(library::keep_syllabus(shelf.file, monday, std::nullopt));
    CHECK(library::keep_syllabus(shelf.file, autumn, std::nullopt));
    CHECK(library::kept_syllabi(shelf.file) == std::vector<KeptSyllabus>{autumn, monday});
    CHECK(library::forget_syllabus(shelf.file, "monday"));
    CHECK_FALSE(library::forget_syllabus(shelf.file, "monday"));
    CHECK(library::kept_syllabi(shelf.file) == std::vector<KeptSyllabus>{autumn});
}

TEST_CASE("syllabi: nobody's change is written over unseen", "[library]") {
    const SyllabiShelf shelf;
    const KeptSyllabus first{"m", "M", "first"};
    const KeptSyllabus second{"m", "M", "second"};
    CHECK(library::keep_syllabus(shelf.file, first, std::nullopt));
    CHECK_FALSE(library::keep_syllabus(shelf.file, second, std::nullopt));
    CHECK_FALSE(library::keep_syllabus(shelf.file, second, "another"));
    CHECK(library::kept_syllabus(shelf.file, "m") == first);
    CHECK(library::keep_syllabus(shelf.file, second, "first"));
    CHECK(library::kept_syllabus(shelf.file, "m") == second);
}

TEST_CASE("syllabi: taken back once, in the text that is made of the two", "[library]") {
    const SyllabiShelf shelf;
    const auto both = [](const std::string& now, const std::string& before) { return now + " -> " + before; };
    CHECK(library::keep_syllabus(shelf.file, {"m", "M", "first"}, std::nullopt));
    CHECK_FALSE(library::take_back_syllabus(shelf.file, "m", both).has_value());
    CHECK(library::keep_syllabus(shelf.file, {"m", "M", "second"}, "first"));
    CHECK(library::take_back_syllabus(shelf.file, "m", both) == KeptSyllabus{"m", "M", "second -> first"});
    CHECK_FALSE(library::take_back_syllabus(shelf.file, "m", both).has_value());
    CHECK(library::keep_syllabus(shelf.file, {"m", "M", "third"}, "second -> first"));
    CHECK_THROWS(library::take_back_syllabus(
        shelf.file, "m",
        [](const std::string&, const std::string&) -> std::string { throw std::runtime_error("no"); }));
    CHECK(library::kept_syllabus(shelf.file, "m")->text == "third");
}

TEST_CASE("syllabi: an import leaves them alone", "[library]") {
    const SyllabiShelf shelf;
    CHECK(library::keep_syllabus(shelf.file, {"m", "M", "text"}, std::nullopt));
    library::Intake intake = library::Intake::open(shelf.file);
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Rope", 22)}));
    intake.close();
    CHECK(library::kept_syllabus(shelf.file, "m")->text == "text");
}

TEST_CASE("syllabi: no library, no syllabi", "[library]") {
    const support::Scratch scratch;
    CHECK_THROWS_AS(library::kept_syllabi(scratch / "none.db"), base::Failure);
    CHECK_THROWS_AS(library::keep_syllabus(scratch / "none.db", {"m", "M", "text"}, std::nullopt), base::Failure);
}
