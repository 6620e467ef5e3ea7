#include "importer/scan.h"

#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>

#include "support/scratch.h"

using importer::Scan;
using importer::scan;

namespace {

const char* const kTune = "X:1\nT:Lamp\nK:G\nGABc|\n";

std::vector<std::string> shown(const Scan& scanned) {
    std::vector<std::string> names;
    for (const auto& file : scanned.files) names.push_back(file.shown);
    return names;
}

bool passes_over(const Scan& scanned, const std::string& name, const std::string& words) {
    return std::any_of(scanned.passed_over.begin(), scanned.passed_over.end(), [&](const importer::PathRemark& remark) {
        return remark.path.ends_with(name) && remark.sentence.find(words) != std::string::npos;
    });
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("scan: ABC files below a folder, sorted, whatever the case of the ending", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/b.abc", kTune);
    scratch.write("t/A.ABC", kTune);
    scratch.write("t/hall/deep/c.Abc", kTune);
    scratch.write("t/picture.jpg", kTune);
    scratch.write("t/.hidden.abc", kTune);
    scratch.write("t/.git/d.abc", kTune);
    const Scan scanned = scan({scratch / "t"});
    CHECK(shown(scanned) == Names{"A.ABC", "b.abc", "hall/deep/c.Abc"});
    CHECK(scanned.other_files == 1);
    CHECK(scanned.problems.empty());
    CHECK(scanned.folders == Names{std::filesystem::canonical(scratch / "t").string()});
    CHECK(scanned.files[1].size == 21);
    CHECK(scanned.files[1].path == std::filesystem::canonical(scratch / "t/b.abc").string());
}

TEST_CASE("scan: texts are taken when they look like ABC, or were before", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/tunes.txt", kTune);
    const auto letter = scratch.write("t/letter.txt", "Dear all,\n\nbring the rope.\n");
    Scan scanned = scan({scratch / "t"});
    CHECK(shown(scanned) == Names{"tunes.txt"});
    CHECK(passes_over(scanned, "letter.txt", "does not look like ABC"));
    scanned = scan({scratch / "t"}, {std::filesystem::canonical(letter).string()});
    CHECK(shown(scanned) == Names{"letter.txt", "tunes.txt"});
}

TEST_CASE("scan: a file named itself is taken whatever its ending, once", "[importer][scan]") {
    const support::Scratch scratch;
    const auto file = scratch.write("t/old.book", kTune);
    scratch.write("t/a.abc", kTune);
    CHECK(shown(scan({file})) == Names{"old.book"});
    CHECK(shown(scan({file, file, scratch / "t/./old.book"})) == Names{"old.book"});
    CHECK(shown(scan({scratch / "t/a.abc", scratch / "t", scratch / "t/"})) == Names{"a.abc"});
}

TEST_CASE("scan: a missing path is a problem of that path", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/a.abc", kTune);
    const Scan scanned = scan({scratch / "nowhere", scratch / "t"});
    REQUIRE(scanned.problems.size() == 1);
    CHECK(scanned.problems[0].path == (scratch / "nowhere").string());
    CHECK(scanned.problems[0].sentence == "is not there");
    CHECK(shown(scanned) == Names{"a.abc"});
    CHECK(scanned.folders.size() == 1);
}

TEST_CASE("scan: links are followed once, and circles end", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/real/a.abc", kTune);
    scratch.write("elsewhere/b.abc", kTune);
    namespace fs = std::filesystem;
    fs::create_directory_symlink(scratch / "t", scratch / "t/real/up");
    fs::create_directory_symlink(scratch / "elsewhere", scratch / "t/also");
    fs::create_directory_symlink(scratch / "elsewhere", scratch / "t/zagain");
    fs::create_symlink(scratch / "t/real/a.abc", scratch / "t/0-link.abc");  // sorts before what it leads to
    fs::create_symlink(scratch / "nothing", scratch / "t/dangling.abc");
    fs::create_symlink(scratch / "t/self.abc", scratch / "t/self.abc");
    const Scan scanned = scan({scratch / "t"});
    CHECK(shown(scanned) == Names{"also/b.abc", "real/a.abc"});
    CHECK(passes_over(scanned, "0-link.abc", "read already"));
    CHECK(passes_over(scanned, "up", "read already"));
    CHECK(passes_over(scanned, "zagain", "read already"));
    CHECK(passes_over(scanned, "dangling.abc", "leads nowhere"));
    CHECK(passes_over(scanned, "self.abc", "circle"));
}

TEST_CASE("scan: what is no ordinary file is passed over without being opened", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/a.abc", kTune);
    REQUIRE(::mkfifo((scratch / "t/pipe.abc").c_str(), 0600) == 0);
    REQUIRE(::mkfifo((scratch / "t/pipe.txt").c_str(), 0600) == 0);
    const Scan scanned = scan({scratch / "t"});
    CHECK(shown(scanned) == Names{"a.abc"});
    CHECK(passes_over(scanned, "pipe.abc", "not an ordinary file"));
    CHECK(scan({scratch / "t/pipe.abc"}).problems.size() == 1);
}

TEST_CASE("scan: names that are no UTF-8 or drive a terminal are shown safely and kept as they are",
          "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/caf\xE9.abc", kTune);
    scratch.write("t/x\x1b[31m.abc", kTune);
    const Scan scanned = scan({scratch / "t"});
    CHECK(shown(scanned) == Names{"caf\xEF\xBF\xBD.abc", "x [31m.abc"});
    CHECK(scanned.files[0].path.ends_with("caf\xE9.abc"));
}

TEST_CASE("scan: folders that cannot be read are problems", "[importer][scan]") {
    const support::Unprivileged unprivileged;
    if (!support::Unprivileged::holds()) {
        WARN("not tried: the superuser may read everywhere");
        return;
    }
    const support::Scratch scratch;
    scratch.write("t/locked/a.abc", kTune);
    std::filesystem::permissions(scratch / "t/locked", std::filesystem::perms::none);
    const Scan scanned = scan({scratch / "t"});
    CHECK(scanned.unread_folders.size() == 1);
    CHECK(scanned.problems.size() == 1);
    std::filesystem::permissions(scratch / "t/locked", std::filesystem::perms::owner_all);
}

TEST_CASE("scan: the library is passed over under any name, and nothing of it is opened", "[importer][scan]") {
    const support::Scratch scratch;
    scratch.write("t/a.abc", kTune);
    const auto library = scratch.write("t/library.abc", kTune);
    scratch.write("t/library.abc-journal", kTune);
    std::filesystem::create_hard_link(library, scratch / "t/hard.txt");
    std::filesystem::create_symlink("library.abc", scratch / "t/soft.abc");
    std::filesystem::create_symlink("library.abc-journal", scratch / "t/journal.txt");
    const Scan scanned = scan({scratch / "t"}, {}, library);
    CHECK(shown(scanned) == Names{"a.abc"});
    for (const char* name : {"library.abc", "hard.txt", "soft.abc", "journal.txt"})
        CHECK(passes_over(scanned, name, "is the gamut library itself"));
    const Scan named = scan({scratch / "t/soft.abc"}, {}, library);
    CHECK(named.files.empty());
    REQUIRE(named.problems.size() == 1);
    CHECK(named.problems.front().sentence == "is the gamut library itself and was not read");
}
