#include "analysis/key_label.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/analyse.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `warning: message advice`, or nothing.
std::string doubt(const std::string& music, const std::string& key) {
    const AbcFile file(tune_of(music, "", key));
    const auto oddity = analysis::find_key_label_oddity(file.only(), analysis::analyse(file.only()));
    if (!oddity) return "";
    CHECK(oddity->kind == tune::OddityKind::key_label);
    return std::string(base::severity_token(oddity->severity)) + ": " + oddity->message + " " + oddity->advice;
}

// Invented; plainly A dorian: F sharp and C natural, home on A.
const char* const kDorian = "A2AB cBAG|E^FGE A4|ABcd edcB|A^FGE A4|";
// Invented; plainly E minor.
const std::string kMinor = "E2GF E2B2|B2cB E2E2|EFGA B2AG|F2D2 E4|";

}  // namespace

TEST_CASE("key label: a label that is one of the keys the notes leave open is left alone", "[analysis][key_label]") {
    CHECK(doubt(kDorian, "Ador") == "");
    CHECK(doubt("G2GA B2d2|c2A2 G4|G2B2 d2B2|A2F2 G4|", "G") == "");
    CHECK(doubt(kDorian, "Am ^f") == "");  // the signature says dorian, whatever the name
}

TEST_CASE("key label: the mode is doubted where its notes do not sound and others do", "[analysis][key_label]") {
    CHECK(doubt(std::string(kDorian) + kDorian, "Am") ==
          "warning: Labelled A minor, but the notes speak for A dorian: F# sounds 4 times, which A minor has not. "
          "Look at the notes before changing K:, for a new signature changes how they sound.");
    CHECK(doubt(kDorian, "Am") == "");  // two passing notes
}

TEST_CASE("key label: a mode doubted on few notes is a remark", "[analysis][key_label]") {
    const std::string plain = "A2AB cBAG|E2GE A4|ABcd edcB|A2GE A4|";
    const std::string remark = doubt(std::string(kDorian) + "A^FGE A4|" + plain + plain, "Am");
    CHECK(remark.substr(0, 8) == "remark: ");
    CHECK(remark.find("F# sounds 3 times") != std::string::npos);
}

TEST_CASE("key label: another tonic is named with the key that keeps the signature", "[analysis][key_label]") {
    CHECK(doubt(kMinor + kMinor, "G") ==
          "remark: Labelled G major, but the notes speak for E minor: the last note is E. K:Em keeps the same "
          "signature, so that no note changes.");
}

TEST_CASE("key label: a tune that begins or ends a part at home, or ends elsewhere, is left alone",
          "[analysis][key_label]") {
    REQUIRE(doubt(kMinor + kMinor, "G") != "");
    const std::string leaning = "E2GF G2B2|B2cB G2E2|EFGA G2AG|F2D2 E4|";
    CHECK(doubt(kMinor + leaning + leaning, "G") == "");  // 11 strong beats on E, 6 on G
    CHECK(doubt(kMinor + kMinor + leaning, "G") != "");
    CHECK(doubt("G2EF E2E2|" + kMinor + kMinor, "G") == "");  // begins on G
    CHECK(doubt(kMinor + "F2D2 G4||" + kMinor, "G") == "");   // a part ends on G
    CHECK(doubt(kMinor + kMinor + "E2EF B4|", "G") == "");    // ends on neither
}

TEST_CASE("key label: fragments, changes of key and labels without a mode are left alone", "[analysis][key_label]") {
    CHECK(doubt("A^FE^F A2^FE|A^FEC A4|", "Am") == "");
    CHECK(doubt("A^FE^F A2^FE|A^FEC A4|A^FEC A4|", "Am") != "");  // sixteen notes and more are no fragment
    CHECK(doubt(std::string(kDorian) + kDorian + "[K:G]G8|", "Am") == "");
    CHECK(doubt(std::string(kDorian) + kDorian, "none") == "");
    CHECK(doubt(std::string(kDorian) + kDorian, "HP") == "");
    CHECK(doubt(std::string(kDorian) + kDorian, "A exp _b") == "");
    CHECK(doubt("z8|z8|", "Am") == "");
}

TEST_CASE("key label: the raised seventh of a minor tune is no reason to doubt it", "[analysis][key_label]") {
    // Invented; D minor by its thirds, with C sharps before each close and F sharps that pass.
    const std::string minor = "d2fe d2^cd|^f2e2 d2A2|A2G2 ^F2G2|A2=F2 E2D2|D2FE D2^CD|E2^F2 G2A2|f2e2 d2=B2|A2^c2 d4|";
    CHECK(doubt(minor + minor, "Dm") == "");
}

TEST_CASE("key label: a degree that sounds as the label has it more often than not is left alone",
          "[analysis][key_label]") {
    // Invented; C sharp in the runs, C natural at each close.
    const std::string both = "G2BG d2BG|AGFE D4|GABc d2cd|e2dc B2G2|g2fg d2B2|e2c2 d4|G2B=c d2BA|B=cAF G4|";
    CHECK(doubt(both + both, "Glyd") == "");
    CHECK(doubt("G2BG d2BG|AGFE D4|GAB=c d2=cd|e2d=c B2G2|g2fg d2B2|e2=c2 d4|G2B=c d2BA|B=cAF G4|", "Glyd") != "");
}

TEST_CASE("key label: what leads back into the tune does not speak for another home note", "[analysis][key_label]") {
    // Invented; ends on C only on the way back to its beginning.
    const std::string round = "c2GE C2GE|c2GE D2A2|c2GE C2EG|";
    CHECK(doubt(round + round + round + "cAGE G2A2|c2G2 A3c|", "Am") == "");
    CHECK(doubt(round + round + round + "cAGE G2A2|cAGE c4|", "Am") != "");
}

TEST_CASE("key label: another home note has to explain the notes as well as the label does", "[analysis][key_label]") {
    // Invented; G sharp leads to A, though the tune ends on C.
    const std::string led = "c2BA ^G2A2|c2ed c2e2|c2BA ^G2A2|c2dB c4|";
    CHECK(doubt(led + led, "Am") == "");
}

TEST_CASE("key label: the top note of a chord ends a part", "[analysis][key_label]") {
    REQUIRE(doubt(kMinor + kMinor, "G") != "");
    CHECK(doubt(kMinor + "F2D2 [EG]4||" + kMinor, "G") == doubt(kMinor + "F2D2 G4||" + kMinor, "G"));
}
