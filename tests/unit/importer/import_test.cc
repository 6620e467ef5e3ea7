// The whole way from a folder to a library, again and again.
#include "importer/import.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

#include "base/failure.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "support/scratch.h"

using importer::import_paths;
using importer::ImportOptions;
using importer::ImportReport;

namespace {

constexpr std::int64_t kSecond = 1'000'000'000;
constexpr std::int64_t kThen = 1'700'000'000 * kSecond;  // when the files of these tests were last written
constexpr std::int64_t kNow = kThen + 3600 * kSecond;

const std::string kLamp = "X:1\nT:The Lamp on Pier Nine\nR:jig\nM:6/8\nL:1/8\nK:D\nDFA dAF|GBd gdB|A3 D3|]\n";
const std::string kRope = "X:2\nT:Rope for the Ferry\nR:reel\nM:4/4\nL:1/8\nK:G\nGABc dBAG|EGDG E2D2|G4 G4|]\n";
const std::string kNet = "X:3\nT:A Net of Herring\nM:3/4\nL:1/8\nK:Am\nA2 c2 e2|d2 c2 B2|A6|]\n";

// A folder of tunes beside a library.
struct Harbour {
    support::Scratch scratch;
    std::filesystem::path folder = scratch / "tunes";
    std::filesystem::path file = scratch / "library/l.db";
    std::int64_t now = kNow;

    Harbour() { std::filesystem::create_directory(folder); }

    void write(const std::string& name, const std::string& text, std::int64_t mtime = kThen) const {
        scratch.write("tunes/" + name, text);
        scratch.set_mtime("tunes/" + name, mtime);
    }
    ImportReport import(const std::vector<std::filesystem::path>& paths, unsigned workers = 0) const {
        ImportOptions options;
        options.now_ns = now;
        options.workers = workers;
        return import_paths(paths, file, options);
    }
    ImportReport import() const { return import({folder}); }
    library::Library read() const { return library::Library::open_existing(file); }
    std::int64_t id(const std::string& title) const {
        const auto found = read().tunes_titled(title);
        return found.size() == 1 ? found.front().id.value : -static_cast<std::int64_t>(found.size());
    }
    std::string listing() const {
        std::string text;
        collection::Selection s;
        s.sort = collection::Sort::file;
        s.settings = true;
        for (const auto& row : read().select_tunes(s).rows)
            text += std::to_string(row.own.value) + " " + row.file + ":" + std::to_string(row.line) + " " +
                    (row.titles.empty() ? "" : row.titles.front()) + "\n";
        return text;
    }
};

std::string counts(const ImportReport& r) {
    return "seen " + std::to_string(r.files.seen) + " read " + std::to_string(r.files.read) + " unchanged " +
           std::to_string(r.files.unchanged) + " failed " + std::to_string(r.files.failed) + " gone " +
           std::to_string(r.files.gone) + "; new " + std::to_string(r.settings.added) + " changed " +
           std::to_string(r.settings.changed) + " same " + std::to_string(r.settings.same) + " gone " +
           std::to_string(r.settings.gone);
}

}  // namespace

TEST_CASE("import: first, and again with nothing changed", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp + "\n" + kRope);
    harbour.write("hall/b.abc", kNet);
    std::int64_t told = 0;
    ImportOptions options;
    options.now_ns = kNow;
    const ImportReport first = import_paths({harbour.folder}, harbour.file, options, [&](const importer::Progress& p) {
        told += p.files_done;
        CHECK(p.files_total == 2);
    });
    CHECK(counts(first) == "seen 2 read 2 unchanged 0 failed 0 gone 0; new 3 changed 0 same 0 gone 0");
    CHECK(first.is_complete());
    CHECK(told == 1 + 2);
    CHECK(harbour.listing() ==
          "1 a.abc:1 The Lamp on Pier Nine\n2 a.abc:9 Rope for the Ferry\n3 hall/b.abc:1 A Net of Herring\n");
    CHECK(counts(harbour.import()) == "seen 2 read 0 unchanged 2 failed 0 gone 0; new 0 changed 0 same 3 gone 0");
}

TEST_CASE("import: an unchanged file is not even opened", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.import();
    // Other bytes of the same size under the old time: only one who opens it can tell.
    std::string other = kLamp;
    other.replace(other.find("Pier"), 4, "Quay");
    harbour.write("a.abc", other);
    CHECK(harbour.import().files.unchanged == 1);
    CHECK(harbour.id("Lamp on Pier Nine") == 1);
    harbour.write("a.abc", other, kThen + 1);
    CHECK(counts(harbour.import()) == "seen 1 read 1 unchanged 0 failed 0 gone 0; new 0 changed 1 same 0 gone 0");
    CHECK(harbour.id("Lamp on Quay Nine") == 1);
}

TEST_CASE("import: a time so recent that it may lie is not trusted", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.now = kThen + kSecond;  // imported within two seconds of its writing
    harbour.import();
    std::string other = kLamp;
    other.replace(other.find("Pier"), 4, "Quay");
    harbour.write("a.abc", other);  // written again in the same tick
    harbour.now = kNow;
    CHECK(harbour.import().settings.changed == 1);
    CHECK(harbour.id("Lamp on Quay Nine") == 1);
}

TEST_CASE("import: a new time on the same bytes is noted, and the file left in peace", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.import();
    harbour.write("a.abc", kLamp, kThen + 60 * kSecond);
    CHECK(counts(harbour.import()) == "seen 1 read 0 unchanged 1 failed 0 gone 0; new 0 changed 0 same 1 gone 0");
    CHECK(library::Intake::open(harbour.file).known_files().front().mtime_ns == kThen + 60 * kSecond);
}

TEST_CASE("import: one tune of one file changed", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp + "\n" + kRope);
    harbour.write("b.abc", kNet);
    harbour.import();
    std::string corrected = kRope;
    corrected.replace(corrected.find("GABc"), 4, "GABd");
    harbour.write("a.abc", kLamp + "\n" + corrected, kThen + kSecond);
    CHECK(counts(harbour.import()) == "seen 2 read 1 unchanged 1 failed 0 gone 0; new 0 changed 1 same 2 gone 0");
    CHECK(harbour.id("Rope for the Ferry") == 2);
}

TEST_CASE("import: a file moved and renamed keeps its ids", "[importer][import]") {
    Harbour harbour;
    harbour.write("m.abc", kLamp + "\n" + kRope);
    harbour.import();
    std::filesystem::create_directory(harbour.folder / "attic");
    std::filesystem::rename(harbour.folder / "m.abc", harbour.folder / "attic/z.abc");
    CHECK(counts(harbour.import()) == "seen 1 read 1 unchanged 0 failed 0 gone 0; new 0 changed 0 same 2 gone 0");
    CHECK(harbour.listing() == "1 attic/z.abc:1 The Lamp on Pier Nine\n2 attic/z.abc:9 Rope for the Ferry\n");
}

TEST_CASE("import: a whole folder renamed and imported under its new name keeps its ids", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp + "\n" + kRope);
    harbour.write("b.abc", kNet);
    harbour.import();
    std::filesystem::rename(harbour.folder, harbour.scratch / "melodies");
    const ImportReport report = harbour.import({harbour.scratch / "melodies"});
    CHECK(counts(report) == "seen 2 read 2 unchanged 0 failed 0 gone 0; new 0 changed 0 same 3 gone 0");
    CHECK(harbour.id("A Net of Herring") == 3);
    CHECK(harbour.read().counts().files_gone == 0);
}

TEST_CASE("import: a tune cut from one file and put into a new one keeps its id", "[importer][import]") {
    Harbour harbour;
    harbour.write("m.abc", kLamp + "\n" + kRope);
    harbour.import();
    harbour.write("m.abc", kLamp, kThen + kSecond);
    harbour.write("a.abc", kRope, kThen + kSecond);  // its name comes first
    harbour.import();
    CHECK(harbour.id("Rope for the Ferry") == 2);
    CHECK(harbour.read().counts().settings == 2);
}

TEST_CASE("import: a copy is new, the original keeps its id", "[importer][import]") {
    Harbour harbour;
    harbour.write("m.abc", kLamp);
    harbour.import();
    harbour.write("a.abc", kLamp);
    CHECK(harbour.import().settings.added == 1);
    CHECK(harbour.listing() == "2 a.abc:1 The Lamp on Pier Nine\n1 m.abc:1 The Lamp on Pier Nine\n");
    CHECK(harbour.read().counts().settings == 2);
    CHECK(harbour.read().counts().tunes == 1);
}

TEST_CASE("import: a deleted file is gone and comes back", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.write("b.abc", kRope);
    harbour.import();
    std::filesystem::remove(harbour.folder / "a.abc");
    CHECK(counts(harbour.import()) == "seen 1 read 0 unchanged 1 failed 0 gone 1; new 0 changed 0 same 1 gone 1");
    CHECK(harbour.listing() == "2 b.abc:1 Rope for the Ferry\n");
    CHECK(harbour.import().files.gone == 0);  // told once
    harbour.write("a.abc", kLamp);
    CHECK(counts(harbour.import()) == "seen 2 read 1 unchanged 1 failed 0 gone 0; new 0 changed 0 same 2 gone 0");
    CHECK(harbour.id("The Lamp on Pier Nine") == 1);
}

TEST_CASE("import: what a person said survives moves, corrections, deletion and return", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp + "\n" + kRope);
    harbour.write("b.abc", kNet);
    harbour.import();
    {
        library::Marks marks = library::Marks::change(harbour.file);
        marks.add_tag({1}, tune::read_tag("Wedding"));
        marks.set_count({1}, 7);
        marks.add_tag({3}, tune::read_tag("thursday"));
        marks.commit();
    }
    const std::vector<collection::TuneMark> said = {{{1}, 7, {"wedding"}}, {{3}, std::nullopt, {"thursday"}}};
    const auto still_said = [&](const std::string& title) {
        CHECK(harbour.read().marks() == said);
        const auto found = harbour.read().tunes_titled(title);
        REQUIRE(found.size() == 1);
        CHECK(found[0].tags == std::vector<std::string>{"Wedding"});
        CHECK(found[0].count == 7);
    };
    still_said("The Lamp on Pier Nine");
    std::filesystem::create_directory(harbour.folder / "attic");
    std::filesystem::rename(harbour.folder / "a.abc", harbour.folder / "attic/z.abc");
    harbour.import();
    still_said("The Lamp on Pier Nine");
    std::string corrected = kLamp;
    corrected.replace(corrected.find("Pier"), 4, "Quay");
    harbour.write("attic/z.abc", corrected + "\n" + kRope, kThen + kSecond);
    harbour.import();
    still_said("The Lamp on Quay Nine");

    std::filesystem::remove(harbour.folder / "attic/z.abc");
    harbour.import();
    CHECK(harbour.read().tunes_titled("The Lamp on Quay Nine").empty());
    CHECK(harbour.read().marks() == said);  // kept for the day it comes back
    CHECK(harbour.read().tune_by_id({1})->count == 7);
    collection::Selection weddings;
    weddings.tag = "WEDDING";
    CHECK(harbour.read().select_tunes(weddings).matched == 0);
    harbour.write("c.abc", corrected, kThen + 2 * kSecond);
    harbour.import();
    still_said("The Lamp on Quay Nine");
    CHECK(harbour.read().select_tunes(weddings).matched == 1);
}

TEST_CASE("import: a missing folder marks nothing gone", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.import();
    std::filesystem::rename(harbour.folder, harbour.scratch / "unplugged");
    const ImportReport report = harbour.import();
    CHECK(report.problems.size() == 1);
    CHECK_FALSE(report.is_complete());
    CHECK(report.files.gone == 0);
    CHECK(harbour.id("The Lamp on Pier Nine") == 1);
    std::filesystem::rename(harbour.scratch / "unplugged", harbour.folder);
    CHECK(harbour.import().files.unchanged == 1);
}

TEST_CASE("import: only what lies below the folders asked for is missed", "[importer][import]") {
    Harbour harbour;
    harbour.write("hall/a.abc", kLamp);
    harbour.write("hall-old/b.abc", kRope);
    harbour.import();
    std::filesystem::remove(harbour.folder / "hall/a.abc");
    std::filesystem::remove(harbour.folder / "hall-old/b.abc");
    CHECK(harbour.import({harbour.folder / "hall"}).files.gone == 1);
    CHECK(harbour.id("The Lamp on Pier Nine") == 0);
    CHECK(harbour.id("Rope for the Ferry") == 1);  // `-` sorts before `/`
}

TEST_CASE("import: bad files are told one by one and stop nothing", "[importer][import]") {
    Harbour harbour;
    harbour.write("binary.abc", std::string("X:1\n\0", 5));
    harbour.write("empty.abc", "");
    harbour.write("good.abc", kLamp);
    harbour.write("letter.txt", "Dear all\n");
    const ImportReport report = harbour.import();
    CHECK(counts(report) == "seen 3 read 2 unchanged 0 failed 1 gone 0; new 1 changed 0 same 0 gone 0");
    REQUIRE(report.problems.size() == 1);
    CHECK(report.problems[0].path.ends_with("binary.abc"));
    REQUIRE(report.passed_over.size() == 2);
    CHECK(report.passed_over[0].path.ends_with("letter.txt"));
    CHECK(report.passed_over[1].sentence == "is empty");
    CHECK_FALSE(report.is_complete());
}

TEST_CASE("import: what may not be read is a problem, and not gone", "[importer][import]") {
    const support::Unprivileged unprivileged;
    if (!support::Unprivileged::holds()) {
        WARN("not tried: the superuser may read everything");
        return;
    }
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.write("hall/b.abc", kRope);
    harbour.import();
    namespace fs = std::filesystem;
    fs::permissions(harbour.folder / "a.abc", fs::perms::none);
    harbour.scratch.set_mtime("tunes/a.abc", kThen + kSecond);
    fs::permissions(harbour.folder / "hall", fs::perms::none);
    const ImportReport report = harbour.import();
    fs::permissions(harbour.folder / "hall", fs::perms::owner_all);
    CHECK(counts(report) == "seen 1 read 0 unchanged 0 failed 1 gone 0; new 0 changed 0 same 0 gone 0");
    REQUIRE(report.problems.size() == 2);
    CHECK(report.problems[0].path.ends_with("hall"));
    CHECK(report.problems[1].sentence == "could not be read: Permission denied");
    CHECK(harbour.id("The Lamp on Pier Nine") == 1);
    CHECK(harbour.id("Rope for the Ferry") == 2);
}

TEST_CASE("import: nothing that was asked for is there, so no library is made", "[importer][import]") {
    Harbour harbour;
    const ImportReport report = harbour.import({harbour.scratch / "nowhere"});
    CHECK(report.problems.size() == 1);
    CHECK_FALSE(std::filesystem::exists(harbour.file));
}

TEST_CASE("import: the same folder gives the same ids, however many threads read", "[importer][import]") {
    std::string expected;
    for (const unsigned workers : {1U, 2U, 5U}) {
        Harbour harbour;
        for (int i = 0; i < 60; ++i) {
            std::string tune = i % 3 == 0 ? kLamp : i % 3 == 1 ? kRope : kNet;
            for (int k = 0; k < i % 5; ++k) tune += "\n" + kNet;
            harbour.write("f" + std::to_string(i) + ".abc", tune);
        }
        harbour.import({harbour.folder}, workers);
        if (expected.empty()) expected = harbour.listing();
        CHECK(harbour.listing() == expected);
    }
    CHECK(std::count(expected.begin(), expected.end(), '\n') == 180);
}

TEST_CASE("import: no file of the user's is touched and none is left beside them", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    harbour.import();
    CHECK(harbour.scratch.read("tunes/a.abc") == kLamp);
    CHECK(std::distance(std::filesystem::directory_iterator(harbour.folder), {}) == 1);
    CHECK(std::distance(std::filesystem::directory_iterator(harbour.scratch / "library"), {}) == 1);
}

TEST_CASE("import: a second import at the same time is refused", "[importer][import]") {
    Harbour harbour;
    harbour.write("a.abc", kLamp);
    const library::Intake other = library::Intake::open(harbour.file);
    CHECK_THROWS_WITH(harbour.import(), Catch::Contains("another import is writing to"));
}

TEST_CASE("import: diagnostics are counted whole and printed in part", "[importer][import]") {
    Harbour harbour;
    for (int i = 0; i < 5; ++i)
        harbour.write("f" + std::to_string(i) + ".abc", "X:1\nT:Odd\nK:Q#\nDFA ]]|\n\nX:2\nT:Odder\nK:Zork\nDFA|\n");
    ImportOptions options;
    options.now_ns = kNow;
    options.most_printed = 3;
    const ImportReport report = import_paths({harbour.folder}, harbour.file, options);
    CHECK(report.diagnostics.total() >= 10);
    CHECK(report.in_library == report.diagnostics);
    CHECK(report.with_errors == 10);
    REQUIRE(report.printed.size() == 3);
    CHECK(report.printed[0].starts_with("f0.abc:"));
    std::int64_t times = 0;
    for (const collection::FoundKind& kind : report.kinds) times += kind.times;
    CHECK(times == report.diagnostics.total());
    REQUIRE_FALSE(report.kinds.empty());
    CHECK(report.kinds[0].severity == base::Severity::error);
    CHECK(report.kinds[0].file == "f0.abc");
    CHECK(report.kinds[0].files == 5);
    CHECK(report.kinds[0].line == 3);

    const ImportReport again = import_paths({harbour.folder}, harbour.file, options);
    CHECK(again.diagnostics.total() == 0);
    CHECK(again.in_library == report.diagnostics);  // what is unchanged is as odd as before
    CHECK(harbour.read().diagnostics().size() >= 10);
}
