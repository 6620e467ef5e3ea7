#include "importer/reading.h"
#include "library/content_hash.h"

#include <catch2/catch.hpp>

#include <filesystem>

#include "base/file_bytes.h"
#include "support/scratch.h"

using importer::FoundFile;
using importer::Reading;

namespace {

Reading read(const support::Scratch& scratch, const std::string& name, const library::KnownFile* known = nullptr) {
    const FoundFile found{(scratch / name).string(), name,
                          static_cast<std::int64_t>(std::filesystem::file_size(scratch / name)), 5};
    importer::ImportOptions options;
    options.now_ns = 77;
    options.most_printed = 1;
    return importer::read_file(found, known, options);
}

}  // namespace

TEST_CASE("reading: settings with their own text, behind the file's header", "[importer][reading]") {
    const support::Scratch scratch;
    const std::string lamp = "X:1\nT:Lamp\nM:6/8\nK:D\nDFA d2A|\n";
    const std::string rope = "X:02\nT:Rope\nR:Jig\nK:Em\nEGB e2B|\n";
    scratch.write("a.abc", "%abc-2.1\nL:1/8\n\n" + lamp + "\n" + rope);
    const Reading reading = read(scratch, "a.abc");
    CHECK(reading.outcome == Reading::Outcome::read);
    CHECK_FALSE(reading.remark);
    CHECK(reading.file.header == "%abc-2.1\nL:1/8");
    CHECK(reading.file.imported_ns == 77);
    CHECK(reading.file.mtime_ns == 5);
    CHECK(reading.file.content_hash == library::content_hash(scratch.read("a.abc")));
    REQUIRE(reading.file.settings.size() == 2);
    const collection::StoredSetting& first = reading.file.settings[0];
    CHECK(first.number == "1");
    CHECK(first.line == 4);
    CHECK(first.titles == std::vector<std::string>{"Lamp"});
    CHECK(first.key_stated == "D major");
    CHECK(first.abc.starts_with("X:1\nT:Lamp"));
    CHECK(first.abc.find("Rope") == std::string::npos);
    CHECK(first.facts.needed.midi_numbers() == std::vector<int>{62, 66, 69, 74});  // D4 F#4 A4 D5
    CHECK(first.facts.uses.empty());
    CHECK(reading.file.settings[1].number == "2");
    CHECK(reading.file.settings[1].rhythm_stated == "Jig");
}

TEST_CASE("reading: a key behind the first one and before the music is kept beside it", "[importer][reading]") {
    const support::Scratch scratch;
    scratch.write("a.abc", "X:1\nT:Lamp\nK:C\n[K:Em]EGB|\n\nX:2\nT:Rope\nK:C\n[K:C]EGB|\n");
    const Reading reading = read(scratch, "a.abc");
    REQUIRE(reading.file.settings.size() == 2);
    CHECK(reading.file.settings[0].key_stated == "C major");
    CHECK(reading.file.settings[0].key_in_force == "E minor");
    CHECK_FALSE(reading.file.settings[1].key_in_force);
}

TEST_CASE("reading: a file that starts with a tune has no header", "[importer][reading]") {
    const support::Scratch scratch;
    scratch.write("a.abc", "X:1\nT:Lamp\nK:D\nDFA|\n\nX:2\nT:Rope\nK:D\nDFA|\n");
    CHECK(read(scratch, "a.abc").file.header.empty());
    scratch.write("b.abc", "\n\n%abc\nX:1\nT:Lamp\nK:D\nDFA|\n");
    CHECK(read(scratch, "b.abc").file.header.empty());
}

TEST_CASE("reading: what is as it was is not parsed again, unless its facts are old", "[importer][reading]") {
    const support::Scratch scratch;
    scratch.write("a.abc", "X:1\nT:Lamp\nK:D\nDFA|\n");
    library::KnownFile known;
    known.content_hash = library::content_hash(scratch.read("a.abc"));
    CHECK(read(scratch, "a.abc", &known).outcome == Reading::Outcome::same_bytes);
    known.facts_are_current = false;
    CHECK(read(scratch, "a.abc", &known).file.settings.size() == 1);
    known.facts_are_current = true;
    known.gone = true;
    CHECK(read(scratch, "a.abc", &known).file.settings.size() == 1);
    known.gone = false;
    known.content_hash.clear();
    CHECK(read(scratch, "a.abc", &known).outcome == Reading::Outcome::read);
}

TEST_CASE("reading: files that hold no tunes say why", "[importer][reading]") {
    const support::Scratch scratch;
    scratch.write("binary.abc", std::string("X:1\nK:C\n\0\0\0", 11));
    scratch.write("empty.abc", "");
    scratch.write("words.abc", "only words\n");
    Reading reading = read(scratch, "binary.abc");
    CHECK(reading.outcome == Reading::Outcome::failed);
    CHECK(reading.remark == "is not a text file and was not read");
    reading = read(scratch, "empty.abc");
    CHECK(reading.outcome == Reading::Outcome::read);
    CHECK(reading.remark == "is empty");
    reading = read(scratch, "words.abc");
    CHECK(reading.outcome == Reading::Outcome::read);
    CHECK(reading.remark == "holds no tune");
    const FoundFile absent{(scratch / "absent.abc").string(), "absent.abc", 1, 1};
    reading = importer::read_file(absent, nullptr, {});
    CHECK(reading.outcome == Reading::Outcome::failed);
    CHECK(reading.remark == "could not be read: No such file or directory");
    const FoundFile large{(scratch / "empty.abc").string(), "empty.abc", base::kMaxFileBytes + 1, 1};
    reading = importer::read_file(large, nullptr, {});
    CHECK(reading.outcome == Reading::Outcome::failed);
    CHECK(reading.remark == "is larger than 256 MiB and was not read");
}

TEST_CASE("reading: diagnostics keep their places; few are printed, all are counted", "[importer][reading]") {
    const support::Scratch scratch;
    scratch.write("a.abc", "X:1\nT:Lamp\nK:Q#nonsense\nDFA ]]]]|\n\nX:2\nT:Rope\nK:Zork\nDFA|\n");
    const Reading reading = read(scratch, "a.abc");
    const auto total = reading.odd.total();
    REQUIRE(total >= 2);
    CHECK(static_cast<std::int64_t>(reading.file.diagnostics.size()) == total);
    CHECK(reading.file.diagnostics.front().line >= 3);
    REQUIRE(reading.printed.size() == 1);
    CHECK(reading.printed.front().starts_with("a.abc:"));
}
