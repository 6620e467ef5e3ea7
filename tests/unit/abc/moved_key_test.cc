#include "abc/moved_key.h"

#include <array>
#include <catch2/catch.hpp>
#include <string>

#include "abc/key_field.h"
#include "music/pitch.h"

namespace {

std::string moved_key_text(std::string_view text, int semitones) {
    const auto key = abc::moved_key(text, semitones);
    return key ? key->text : "(not moved)";
}

}  // namespace

TEST_CASE("moved_key: the tonic moves, the way the mode is written stays", "[abc][moved]") {
    CHECK(moved_key_text("G", 2) == "A");
    CHECK(moved_key_text("Ador", 2) == "Bdor");
    CHECK(moved_key_text("A dorian", -2) == "G dorian");
    CHECK(moved_key_text("DMIX", 5) == "GMIX");
    CHECK(moved_key_text("Em", 1) == "Fm");
    CHECK(moved_key_text("E minor", -1) == "D# minor");  // six sharps: as E has one, and not six flats
    CHECK(moved_key_text("F", -1) == "E");
    CHECK(moved_key_text("Bb", 2) == "C");
    CHECK(moved_key_text("C", 6) == "F#");
    CHECK(moved_key_text("F", 1) == "Gb");  // six of either kind: flats, as F has one
}

TEST_CASE("moved_key: a key written oddly is moved all the same", "[abc][moved]") {
    CHECK(moved_key_text("g", 2) == "A");
    CHECK(moved_key_text("Bflat", 2) == "C");
    CHECK(moved_key_text("F sharp minor", 1) == "G minor");
    CHECK(moved_key_text("B\u266D major", -2) == "Ab major");
}

TEST_CASE("moved_key: a German key is written as the standard has it", "[abc][moved]") {
    CHECK(moved_key_text("Es-Dur", 2) == "F");
    CHECK(moved_key_text("Fis-moll", 1) == "Gm");
    CHECK(moved_key_text("h", 1) == "Cm");
    CHECK(moved_key_text("Hdor clef=treble", -2) == "Ador clef=treble");
    CHECK(moved_key_text("Es=a", 2) == "F=b");
}

TEST_CASE("moved_key: clef, octave, transposition and words stay", "[abc][moved]") {
    CHECK(moved_key_text("D clef=bass octave=-1 middle=d", 2) == "E clef=bass octave=-1 middle=d");
    CHECK(moved_key_text("Gm  transpose=-12   bass-8", 2) == "Am  transpose=-12   bass-8");
    CHECK(moved_key_text("G first tune", 5) == "C first tune");
    CHECK(moved_key_text("D sound=B", 2) == "E sound=B");
}

TEST_CASE("moved_key: added accidentals go with the tonic", "[abc][moved]") {
    CHECK(moved_key_text("D ^g", 2) == "E ^a");
    CHECK(moved_key_text("D =c", -2) == "C _b");
    CHECK(moved_key_text("E phr ^G", 5) == "A phr ^C");
    CHECK(moved_key_text("C _b", 2) == "D =c");
    CHECK(moved_key_text("Am^f^g", 2) == "Bm^g^a");
    CHECK(moved_key_text("Dmix=c", 2) == "Emix=d");
    CHECK(moved_key_text("Amix^g", 3) == "Cmix=b");
    CHECK(moved_key_text("G clef=treble ^c", 1) == "Ab clef=treble =d");
}

TEST_CASE("moved_key: explicit accidentals gain what the plain letters need", "[abc][moved]") {
    // D E F# G A B C: a whole tone up E F# G# A B C# D.
    CHECK(moved_key_text("D exp ^f", 2) == "E exp ^g ^f ^c");
    CHECK(moved_key_text("D exp ^f", -2) == "C exp =e _b");
    CHECK(moved_key_text("C exp", 2) == "D exp ^f ^c");
    CHECK(moved_key_text("A exp _b ^c", 3) == "C exp _d =e _b _a");  // A Bb C# D E F G: C Db E F G Ab Bb
}

TEST_CASE("moved_key: none stays none", "[abc][moved]") {
    for (const char* text : {"", "none", "clef=bass", "none clef=alto", "perc"}) CHECK(moved_key_text(text, 3) == text);
    CHECK(moved_key_text("none ^f", 2) == "none ^g ^f ^c");
}

TEST_CASE("moved_key: the pipes become the key they sound", "[abc][moved]") {
    CHECK(moved_key_text("Hp", 2) == "Bmix");
    CHECK(moved_key_text("HP clef=treble", -2) == "Gmix clef=treble");
    CHECK(moved_key_text("Hp", 12) == "Hp");
    CHECK(abc::moved_key("HP", 2)->was_pipes);
    CHECK_FALSE(abc::moved_key("HP", -12)->was_pipes);
    CHECK_FALSE(abc::moved_key("Amix", 2)->was_pipes);
}

TEST_CASE("moved_key: whole octaves keep the key", "[abc][moved]") {
    for (const char* text : {"C#", "Cb", "G#", "D exp ^f", "Ador ^g", "Hp", "g"})
        for (const int semitones : {-24, -12, 12, 24}) CHECK(moved_key_text(text, semitones) == text);
}

TEST_CASE("moved_key: the moved signature sounds so far away, letter for letter", "[abc][moved]") {
    // By hand is too little here: every key of the standard's table with every shift, against the twelve classes.
    for (const char* tonic : {"C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "Cb"}) {
        for (const char* rest :
             {"", "m", "dor", "phr", "lyd", "mix", "loc", " ^c", "mix _e =f", " exp ^f _b", " exp"}) {
            const std::string text = std::string(tonic) + rest;
            const abc::KeyField before = abc::read_key_field(text);
            for (int semitones = -13; semitones <= 13; ++semitones) {
                CAPTURE(text, semitones, moved_key_text(text, semitones));
                const abc::KeyField after = abc::read_key_field(moved_key_text(text, semitones));
                std::array<int, 12> classes{};
                for (int letter = 0; letter < music::kLetters; ++letter) {
                    const auto place = static_cast<std::size_t>(letter);
                    const auto of = [&](const abc::KeyField& field, int by) {
                        const music::NoteName name{static_cast<music::Letter>(letter), field.signature[place]};
                        return static_cast<std::size_t>((name.pitch_class() + by + 48) % 12);
                    };
                    ++classes[of(before, semitones)];
                    --classes[of(after, 0)];
                }
                CHECK(classes == std::array<int, 12>{});
            }
        }
    }
}
