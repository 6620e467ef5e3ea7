#include "report/pages/reading.h"

#include <catch2/catch.hpp>
#include <string>

#include "../../abc/written.h"
#include "analysis/analyse.h"

using written::AbcFile;
using written::joined;
using written::tune_of;

namespace {

std::string pitches(const std::string& music) {
    return joined(report::pitch_words(AbcFile(tune_of(music)).only().melody));
}
std::string lengths(const std::string& music) {
    return joined(report::length_words(AbcFile(tune_of(music)).only().melody));
}

}  // namespace

TEST_CASE("reading: notes, graces, chords and ties each have their own shape", "[report][reading]") {
    CHECK(pitches("C") == "60");
    CHECK(pitches("{D}C") == "g62 60");
    CHECK(pitches("{[df]}C") == "g74+77 60");
    CHECK(pitches("[CEG]") == "60+64+67");
    CHECK(pitches("C-C") == "60 (60)");
    CHECK(pitches("[CE]-[CE]") == "60+64 (60+64)");
    CHECK(pitches("[C-E][CF]") == "60+64 (60)+65");
    CHECK(pitches("z8") == "");
}

TEST_CASE("reading: one length for each note or chord, none for graces and rests", "[report][reading]") {
    CHECK(lengths("{d}C2 z4 [CE]- [CE] C3/2") == "1/4 1/8 1/8 3/16");
    CHECK(lengths("C8 C16") == "1 2");
}

TEST_CASE("reading: the facts of a file name the tune, its notes and its bars", "[report][reading]") {
    const AbcFile file(tune_of("GABc {e}d4|^F8|"));
    const tune::TuneFacts facts = analysis::analyse(file.only());
    report::Document document;
    report::add_facts({file.only(), facts, file.source()}, document);
    std::string words;
    for (const auto& block : document.blocks) {
        if (const auto* heading = std::get_if<report::Heading>(&block)) words += heading->text + "\n";
        if (const auto* lines = std::get_if<report::Particulars>(&block))
            for (const auto& [label, text] : lines->lines) words += label + ": " + text + "\n";
    }
    CHECK_THAT(words, Catch::Contains("X:1") && Catch::Contains("Test") && Catch::Contains("test.abc:1"));
    CHECK_THAT(words, Catch::Contains("F#4 1 (bar 2, strong)"));
    CHECK_THAT(words, Catch::Contains("graces: E5"));
    CHECK_THAT(words, Catch::Contains("bars: 2, 2 different"));
    CHECK_THAT(words, Catch::Contains("F#4..D5"));
}

TEST_CASE("reading: a melody is shown in the same words as its shape", "[report][reading]") {
    const AbcFile file(tune_of("C-C {d}E"));
    report::Document document;
    report::add_melody({file.only(), {}, file.source()}, document);
    std::string words;
    for (const auto& block : document.blocks)
        if (const auto* lines = std::get_if<report::Particulars>(&block))
            for (const auto& [label, text] : lines->lines) words += label + ": " + text + "\n";
    CHECK(words == "pitches: 60 (60) g74 64\nlengths: 1/8 1/8 1/8\n");
}
