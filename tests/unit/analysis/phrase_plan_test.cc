#include "analysis/phrase_plan.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/note_uses.h"
#include "analysis/structure.h"

using written::AbcFile;
using written::tune_of;

namespace {

std::string joined(const std::vector<tune::Phrase>& phrases) {
    std::string text;
    for (const tune::Phrase& phrase : phrases) text += (text.empty() ? "" : " ") + phrase.label;
    return text;
}

tune::Structure structure(const std::string& music, const std::string& fields = "") {
    const AbcFile file(tune_of(music, fields));
    const music::Melody& melody = file.only().melody;
    return analysis::find_structure(melody, analysis::number_bars(melody));
}

// The plan of each part, then that of the whole tune after a stroke.
std::string plan(const std::string& music, const std::string& fields = "") {
    const tune::Structure found = structure(music, fields);
    std::string text;
    for (const tune::Part& part : found.parts) text += (text.empty() ? "" : "; ") + joined(part.phrases);
    return text + " / " + joined(found.phrases);
}

}  // namespace

TEST_CASE("phrase plan: parts of 4, 8 and 16 bars have four phrases", "[analysis][phrase_plan]") {
    // Source: common practice, no source.
    CHECK(analysis::phrase_bars(4) == 1);
    CHECK(analysis::phrase_bars(5) == 1);
    CHECK(analysis::phrase_bars(6) == 2);
    CHECK(analysis::phrase_bars(8) == 2);
    CHECK(analysis::phrase_bars(14) == 2);
    CHECK(analysis::phrase_bars(16) == 4);
    CHECK(analysis::phrase_bars(32) == 4);
    CHECK(plan("C8|D8|C8|E8|") == "a b a c / a b a c");
    CHECK(plan("C8|D8|E8|F8|C8|D8|G8|A8|") == "a b a c / a b a c");
    CHECK(plan("C8|D8|E8|F8|c8|d8|e8|f8|C8|D8|E8|F8|c8|B8|A8|G8|") == "a b a c / a b a c");
}

TEST_CASE("phrase plan: a single bar left over joins the phrase before, more stand alone", "[analysis][phrase_plan]") {
    const auto last = [](const std::string& music) { return structure(music).phrases.back(); };
    CHECK(last("C8|D8|E8|F8|G8|A8|B8|") == tune::Phrase{"c", 5, 7});
    CHECK(last("C8|D8|E8|F8|G8|A8|B8|c8|d8|e8|f8|g8|a8|b8|c'8|C8|E8|") == tune::Phrase{"d", 13, 17});
    CHECK(last("C8|D8|E8|F8|G8|A8|B8|c8|d8|e8|f8|g8|a8|b8|c'8|C8|E8|G8|") == tune::Phrase{"e", 17, 18});
}

TEST_CASE("phrase plan: half of the time alike is the same letter with a prime", "[analysis][phrase_plan]") {
    SECTION("the first bar") { CHECK(plan("C8|D8|C8|E8|F8|G8|C8|A8|") == "a a' b a'' / a a' b a''"); }
    SECTION("the last bar") { CHECK(plan("C8|D8|E8|D8|F8|G8|A8|B8|") == "a a' b c / a a' b c"); }
    SECTION("the first half of both bars") {
        CHECK(plan("C4D4|E4F4|C4G4|E4A4|B8|B8|c8|d8|") == "a a' b c / a a' b c");
        CHECK(plan("C4D4|E4F4|C4G4|F4A4|B8|B8|c8|d8|") == "a b c d / a b c d");
    }
    SECTION("one of four bars is not enough") {
        CHECK(plan("C8|D8|E8|F8|C8|A8|B8|c8|d8|e8|f8|g8|a8|b8|G8|G8|") == "a b c d / a b c d");
    }
    SECTION("three eighths are not enough") { CHECK(plan("C4D4|E4F4|C4D2A2|G8|B8|B8|c8|d8|") == "a b c d / a b c d"); }
    SECTION("the same notes at other places are not alike") { CHECK(plan("CDEF GABc|DEFG ABcC|") == "a b / a b"); }
    SECTION("the same pitch an octave away is not alike") { CHECK(plan("CDEF GABc|C,D,E,F, G,A,B,C|") == "a b / a b"); }
    SECTION("grace notes make no difference") { CHECK(plan("C8|{D}C8|") == "a a / a a"); }
    SECTION("another length of one note does") { CHECK(plan("C4E4|C4E2z2|") == "a a' / a a'"); }
    SECTION("the nearer of two letters is taken") {
        CHECK(plan("C4D4|E4F4|c4d4|e4f4|C4d4|e4f4|G8|G8|") == "a b b' c / a b b' c");
        CHECK(plan("C4D4|E4F4|C4d4|e4f4|C4d4|E4f4|G8|G8|") == "a b b' c / a b b' c");
    }
}

TEST_CASE("phrase plan: what a last bar lacks for the pick-up makes no difference", "[analysis][phrase_plan]") {
    CHECK(plan("G2|C8|D6A2|E8|F8|G8|A8|C8|D6|") == "a b c a / a b c a");
    CHECK(plan("G2|C8|D4C4|E8|F8|G8|A8|C8|D4C2|") == "a b c a / a b c a");
    CHECK(plan("G2|C8|D4C4|E8|F8|G8|A8|C8|D4B2|") == "a b c a' / a b c a'");
    // Too little is left of a bar to say that it is the same.
    CHECK(plan("G6|C8|D2A6|E8|F8|G8|A8|C8|D2|") == "a b c a' / a b c a'");
}

TEST_CASE("phrase plan: letters go through the whole tune, and begin anew in each part", "[analysis][phrase_plan]") {
    CHECK(plan("C8|D8|C8|E8||F8|G8|F8|E8|]") == "a b a c; a b a c / a b a c d e d c");
    SECTION("in the whole the shorter phrase is the measure") {
        CHECK(plan("C8|D8|C8|E8||C8|D8|E8|E8|F8|F8|C8|D8|]") == "a b a c; a b c a / a b a c a b c c d d a b");
    }
}

TEST_CASE("phrase plan: the last ending is played in the place of the others", "[analysis][phrase_plan]") {
    CHECK(plan("|:C8|D8|C8|1E8:|2D8|]") == "a b a b / a b a b");
    CHECK(structure("|:C8|D8|C8|1E8:|2D8|]").phrases.back() == tune::Phrase{"b", 5, 5});
}

TEST_CASE("phrase plan: many variants are numbered, many letters doubled", "[analysis][phrase_plan]") {
    CHECK(plan("C4D4|C4E4|C4F4|C4G4|C4A4|") == "a a' a'' a''' a4 / a a' a'' a''' a4");
    CHECK(analysis::letter_name(0, 'a') == "a");
    CHECK(analysis::letter_name(25, 'A') == "Z");
    CHECK(analysis::letter_name(26, 'A') == "AA");
    CHECK(analysis::letter_name(27, 'a') == "ab");
    CHECK(analysis::letter_name(701, 'a') == "zz");
    CHECK(analysis::letter_name(702, 'a') == "aaa");
}

TEST_CASE("phrase plan: first equals", "[analysis][phrase_plan]") {
    const std::vector<std::uint64_t> values{7, 3, 7, 9, 3, 7};
    CHECK(analysis::first_equals(values) == std::vector<std::uint32_t>{0, 1, 0, 3, 1, 0});
    CHECK(analysis::first_equals({}).empty());
}
