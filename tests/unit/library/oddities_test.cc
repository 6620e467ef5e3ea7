#include <catch2/catch.hpp>

#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"
#include "tune/outline.h"

using base::Severity;
using collection::FoundOddity;
using tune::OddityKind;

namespace {

struct OdditiesShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    void import(const std::vector<collection::StoredFile>& files) const {
        library::Intake intake = library::Intake::open(file);
        for (const collection::StoredFile& one : files) intake.store_file(one);
        intake.close();
    }
    library::Library read() const { return library::Library::open_existing(file); }
    // `b.abc:12:3 bar-length Net`, one a line.
    std::string told() const {
        std::string text;
        for (const FoundOddity& found : read().oddities())
            text += found.file + ":" + std::to_string(found.oddity.line) + ":" + std::to_string(found.oddity.column) +
                    " " + std::string(tune::oddity_token(found.oddity.kind)) + " " + found.title + "\n";
        return text;
    }
};

collection::StoredSetting odd_setting(const char* number, const char* title, std::uint64_t melody,
                                      std::uint32_t odd_line) {
    collection::StoredSetting setting = sample::setting(number, title, melody);
    setting.oddities = {{odd_line, 3, OddityKind::bar_length, Severity::warning, "Bar 2 is short.", "Count it."}};
    return setting;
}

collection::StoredFile file_of(const char* path, std::vector<collection::StoredSetting> settings) {
    collection::StoredFile file = sample::file(path, std::move(settings));
    file.diagnostics = {{11, 7, Severity::error, "abc-bad-length", "not a length"}};
    return file;
}

}  // namespace

TEST_CASE("oddities: those of settings and the reader's findings stand together, by file and place",
          "[library][oddities]") {
    const OdditiesShelf shelf;
    shelf.import({file_of("/t/b.abc", {odd_setting("1", "Net", 11, 5), odd_setting("2", "Oar", 22, 15)}),
                  file_of("/t/a.abc", {odd_setting("1", "Lamp", 33, 6)})});
    const std::string kind(tune::oddity_token(tune::kind_of_code("abc-bad-length")));
    CHECK(shelf.told() == "a.abc:6:3 bar-length Lamp\na.abc:11:7 " + kind +
                              " Lamp\nb.abc:5:3 bar-length Net\nb.abc:11:7 " + kind +
                              " Oar\nb.abc:15:3 bar-length Oar\n");  // line 11 is the first of the second tune
    const FoundOddity first = shelf.read().oddities().front();
    CHECK(first.oddity.message == "Bar 2 is short.");
    CHECK(first.oddity.advice == "Count it.");
    CHECK(first.oddity.severity == Severity::warning);
    CHECK(first.tune == tune::TuneId{3});
    CHECK(first.setting == tune::SettingId{3});
}

TEST_CASE("oddities: they move with their tune, and are gone when it is mended or gone", "[library][oddities]") {
    const OdditiesShelf shelf;
    collection::StoredFile file =
        sample::file("/t/a.abc", {odd_setting("1", "Lamp", 11, 5), odd_setting("2", "Net", 22, 15)});
    shelf.import({file});
    // Another tune before them: their text is as it was, their lines are not.
    shelf.import({sample::file("/t/a.abc", {sample::setting("3", "Oar", 44), odd_setting("1", "Lamp", 11, 15),
                                            odd_setting("2", "Net", 22, 25)})});
    CHECK(shelf.told() == "a.abc:15:3 bar-length Lamp\na.abc:25:3 bar-length Net\n");
    collection::StoredSetting mended = sample::setting("1", "Lamp", 12);
    shelf.import(
        {sample::file("/t/a.abc", {sample::setting("3", "Oar", 44), mended, odd_setting("2", "Net", 22, 25)})});
    CHECK(shelf.told() == "a.abc:25:3 bar-length Net\n");
    shelf.import({sample::file("/t/a.abc", {sample::setting("3", "Oar", 44), mended})});
    CHECK(shelf.told() == "");
}

TEST_CASE("outlines: of present settings, as they were handed over", "[library][outlines]") {
    const OdditiesShelf shelf;
    collection::StoredSetting lamp = sample::setting("1", "Lamp", 11);
    lamp.outline = tune::encode_outline({{{0, 62}, {1680, 64}}, {{0, 3360, 1}}});
    shelf.import({sample::file("/t/a.abc", {lamp, sample::setting("2", "Net", 22)})});
    std::vector<std::int64_t> settings;
    shelf.read().visit_outlines([&](const collection::StoredOutline& stored) {
        settings.push_back(stored.setting.value);
        CHECK(stored.tune == stored.own);
        if (stored.setting.value == 1) CHECK(stored.bytes == lamp.outline);
    });
    CHECK(settings == std::vector<std::int64_t>{1, 2});
    CHECK(shelf.read().outline_of({1})->notes.size() == 2);
    CHECK_FALSE(shelf.read().outline_of({99}));
    lamp.outline = tune::encode_outline({{{0, 62}}, {{0, 3360, 1}}});
    lamp.abc += "corrected\n";
    shelf.import({sample::file("/t/a.abc", {lamp})});
    settings.clear();
    shelf.read().visit_outlines(
        [&](const collection::StoredOutline& stored) { settings.push_back(stored.setting.value); });
    CHECK(settings == std::vector<std::int64_t>{1});
    CHECK(shelf.read().outline_of({1})->notes.size() == 1);
}
