#include "abc/moved_chord.h"

#include <catch2/catch.hpp>
#include <string>

namespace {

// In a tune in G.
std::string moved(std::string_view text, int semitones) {
    const music::StatedKey g{
        music::StatedKey::Kind::tonic_and_mode, {{music::Letter::G, 0}, music::Mode::major}, "major"};
    const abc::Interval interval = abc::interval_of(g, semitones);
    return abc::moved_chord(text, interval, abc::fifths_of(g) + interval.fifths).value_or("(not understood)");
}

}  // namespace

TEST_CASE("moved_chord: root and bass move, the quality stays", "[abc][moved]") {
    CHECK(moved("Am7", 2) == "Bm7");
    CHECK(moved("F#m/C#", 2) == "G#m/D#");
    CHECK(moved("Bb(no3)", 2) == "C(no3)");
    CHECK(moved("G/B", 5) == "C/E");
    CHECK(moved("G/b", 5) == "C/e");
    CHECK(moved("/F#", 5) == "/B");
    CHECK(moved("C6/9", 2) == "D6/9");
    CHECK(moved("D7(b9,#11)", 2) == "E7(b9,#11)");
    CHECK(moved("D7b9", 2) == "E7b9");
    CHECK(moved("Bb7b5", 2) == "C7b5");
    CHECK(moved("Gsus4", 2) == "Asus4");
    CHECK(moved("Gmaj7", 2) == "Amaj7");
    CHECK(moved("CM7", 2) == "DM7");
    CHECK(moved("Edim", 1) == "Fdim");
    CHECK(moved("G+", 2) == "A+");
    CHECK(moved("A-7", 2) == "B-7");
    CHECK(moved("Gadd9", 2) == "Aadd9");
    CHECK(moved("C#o7", 1) == "Do7");
    CHECK(moved("F\u00B07", 2) == "G\u00B07");
}

TEST_CASE("moved_chord: spelled beside the new signature", "[abc][moved]") {
    CHECK(moved("G", 1) == "Ab");  // to A flat, four flats
    CHECK(moved("D7", 1) == "Eb7");
    CHECK(moved("Bm", 1) == "Cm");
    CHECK(moved("G", -1) == "F#");  // six signs: sharps, as G has one
    CHECK(moved("D7", -1) == "C#7");
    CHECK(moved("C", 4) == "E");  // to B, five sharps
    CHECK(moved("F", 4) == "A");
    CHECK(moved("G#", -1) == "G");  // by letters F double sharp
    CHECK(moved("Bb", 1) == "B");   // by letters C flat, which four flats have not
}

TEST_CASE("moved_chord: several chords and alternatives in one text", "[abc][moved]") {
    CHECK(moved("G(Em)", 2) == "A(F#m)");
    CHECK(moved("(Am)", 2) == "(Bm)");
    CHECK(moved("G D7", 2) == "A E7");
    CHECK(moved("G;Em", 2) == "A;F#m");
    CHECK(moved("am", 2) == "bm");
    CHECK(moved("C maj7", 2) == "D maj7");
    CHECK(moved("D C", 2) == "E D");  // with full stops it is D.C.
}

TEST_CASE("moved_chord: signs of print stay signs of print", "[abc][moved]") {
    CHECK(moved("F\u266Fm", 3) == "Am");
    CHECK(moved("B\u266D", 5) == "E\u266D");
    CHECK(moved("F\\u266Fm", 7) == "C\\u266Fm");
}

TEST_CASE("moved_chord: words are no chords", "[abc][moved]") {
    for (const char* text :
         {"D. C.",  "DC",     "D.C",          "D. S.",   "fine",   "FINE",    "Fine.",   "Fin",      "D.S. al Coda",
          "Fine",   "D.C.",   "D.C. al Fine", "Coda",    "Bass",   "Allegro", "Da Capo", "Emma",     "Gently",
          "Adagio", "A part", "Both",         "dolce",   "cresc.", "f",       "ff",      "p",        "f.",
          "fp",     "accel.", "N.C.",         "^slow",   "<(",     ">G",      "_A",      "@1,2 A",   "",
          " ",      "1st",    "Chorus",       "Ad lib.", "SEGUE",  "4",       "C.",      "Bass solo"}) {
        CAPTURE(text);
        CHECK(moved(text, 2) == text);
    }
}

TEST_CASE("moved_chord: basses in small letters and with signs of older collections", "[abc][moved]") {
    CHECK(moved("D/f#", 2) == "E/g#");
    CHECK(moved("Gm/bb", 2) == "Am/c");
    CHECK(moved("D/f+", 2) == "E/g#");
    CHECK(moved("A/c+", 5) == "D/f#");
    CHECK(moved("F+m", 2) == "G#m");
    CHECK(moved("F+", 2) == "G+");  // augmented
    CHECK(moved("F+7", 2) == "G+7");
}

TEST_CASE("moved_chord: diminished in short", "[abc][moved]") {
    CHECK(moved("Gd", 2) == "Ad");
    CHECK(moved("F#d7/a", 1) == "Gd7/bb");
    CHECK(moved("F#o", 1) == "Go");
    CHECK(moved("Bo", 1) == "Co");
    CHECK(moved("G\u00B0", 2) == "A\u00B0");
    CHECK(moved("Bdim.", 1) == "Cdim.");
}

TEST_CASE("moved_chord: what means a chord and is not understood does not stay", "[abc][moved]") {
    for (const char* text :
         {"Hm",    "H7",  "Em?",     "Do",     "Go",  "Sol7", "Lam", "Fism",      "Gfoo7", "G/",
          "D/F#7", "Bbb", "G or Em", "G - Em", "G-D", "G?",   "C*",  "Em bridge", "D\\F#", "Gsusx"}) {
        CAPTURE(text);
        CHECK(moved(text, 2) == "(not understood)");
    }
}

TEST_CASE("moved_chord: whole octaves change nothing", "[abc][moved]") {
    for (const char* text : {"C#m7/G#", "Abb", "Bb", "am"})
        for (const int semitones : {-12, 12, 24}) CHECK(moved(text, semitones) == text);
}

TEST_CASE("moved_chord: only what is quoted is a chord", "[abc][moved]") {
    const abc::Interval tone{2, 1, 2};
    std::vector<std::string> lost;
    const auto moved_up = [&](std::string_view text) { return abc::moved_quoted_chords(text, tone, 3, "*", lost); };
    CHECK(moved_up("\"Am\" * !trill! \"^A\" | \"D7\"") == "\"Bm\" * !trill! \"^A\" | \"E7\"");
    CHECK(moved_up("T = !A!") == "T = !A!");
    CHECK(moved_up("T = \"A") == "T = \"A");
    CHECK(lost.empty());
    CHECK(moved_up("\"Am\" \"H7\" \"D\"") == "\"Bm\" * \"E\"");
    CHECK(lost == std::vector<std::string>{"H7"});
}
