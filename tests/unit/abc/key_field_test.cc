#include "abc/key_field.h"

#include <catch2/catch.hpp>
#include <string>

using abc::KeyField;
using abc::read_key_field;

namespace {

// `D major: F# C#`: the key as stated and the letters its signature changes, in the order C to B.
std::string key_words(const KeyField& field) {
    static const std::string kSigns[] = {"bb", "b", "", "#", "##"};
    std::string text = field.key ? music::to_string(*field.key) : "(unsaid)";
    std::string signs;
    for (std::size_t letter = 0; letter < field.signature.size(); ++letter)
        if (field.signature[letter] != 0)
            signs += std::string(" ") + "CDEFGAB"[letter] + kSigns[field.signature[letter] + 2];
    return text + (signs.empty() ? "" : ":" + signs);
}

std::string codes(const KeyField& field) {
    std::string text;
    for (const abc::FieldFault& fault : field.faults) text += (text.empty() ? "" : " ") + std::string(fault.code.token);
    return text;
}

std::string shift_words(const abc::Shift& shift) {
    std::string text;
    if (shift.clef_octaves) text += " clef " + std::to_string(*shift.clef_octaves);
    if (shift.octaves) text += " octave " + std::to_string(*shift.octaves);
    if (shift.semitones) text += " transpose " + std::to_string(*shift.semitones);
    return text.empty() ? text : text.substr(1);
}

struct Case {
    const char* written;
    const char* key;
};

void check_plain(std::initializer_list<Case> cases) {
    for (const Case& one : cases) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == one.key);
        CHECK(codes(field) == "");
    }
}

}  // namespace

TEST_CASE("key field: every tonic and mode the standard lists has its signature", "[abc][key]") {
    // Source: ABC standard 2.1, section 3.1.14: the mode moves the signature of its tonic round the circle of fifths.
    const char* tonics[] = {"Fb", "Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F",  "C",  "G", "D",
                            "A",  "E",  "B",  "F#", "C#", "G#", "D#", "A#", "E#", "B#"};
    struct ModeRow {
        const char* spellings[5];
        const char* name;
        int fifths;
    };
    const ModeRow modes[] = {{{"", "maj", " major", " Maj", "MAJ"}, "major", 0},
                             {{"m", "min", " Minor", " m", "MIN"}, "minor", -3},
                             {{"ion", " Ionian", "ION", " ion", "Ion"}, "ionian", 0},
                             {{"aeo", " Aeolian", "AEO", " aeo", "Aeo"}, "aeolian", -3},
                             {{"mix", " mixolydian", "Mix", "MIX", "mixo"}, "mixolydian", -1},
                             {{"dor", " dorian", "Dor", " DORIAN", "  dor"}, "dorian", -2},
                             {{"phr", " phrygian", "Phr", "PHR", " phryg"}, "phrygian", -4},
                             {{"lyd", " lydian", "Lyd", "LYD", "\tlydian"}, "lydian", 1},
                             {{"loc", " locrian", "Loc", "LOC", " loc"}, "locrian", -5}};
    int keys = 0;
    for (int place = 0; place < 21; ++place)
        for (const ModeRow& mode : modes) {
            const int fifths = place - 8 + mode.fifths;
            if (fifths < -7 || fifths > 7) continue;
            for (const char* spelling : mode.spellings) {
                const std::string text = std::string(tonics[place]) + spelling;
                CAPTURE(text);
                const KeyField field = read_key_field(text);
                REQUIRE(field.key);
                CHECK(music::to_string(*field.key) == std::string(tonics[place]) + " " + mode.name);
                CHECK(field.signature == music::signature_of_fifths(fifths));
                CHECK(field.faults.empty());
                ++keys;
            }
        }
    CHECK(keys == 9 * 15 * 5);
}

TEST_CASE("key field: blanks and capitals of the mode do not matter", "[abc][key]") {
    check_plain({{"G", "G major: F#"},
                 {" G ", "G major: F#"},
                 {"G   Minor", "G minor: Eb Bb"},
                 {"GMin", "G minor: Eb Bb"},
                 {"Gm", "G minor: Eb Bb"},
                 {"D mixolydian", "D mixolydian: F#"},
                 {"DMIX", "D mixolydian: F#"},
                 {"AM", "A minor"},
                 {"F#m", "F# minor: C# F# G#"},
                 {"Bb", "Bb major: Eb Bb"},
                 {"D maj", "D major: C# F#"},
                 {"Ador", "A dorian: F#"}});
}

TEST_CASE("key field: a word that begins like a mode is one", "[abc][key]") {
    check_plain({{"D major-ish", "D major: C# F#"}, {"D Dorianesque", "D dorian"}, {"E minor-like", "E minor: F#"}});
}

TEST_CASE("key field: written accidentals replace the signature's", "[abc][key]") {
    // Source: ABC standard 2.1, section 3.1.14 (global accidentals).
    check_plain({{"E =d", "E major: C# F# G#"},
                 {"E Phr ^g", "E phrygian: G#"},
                 {"D =c", "D major: F#"},
                 {"D ^g", "D major: C# F# G#"},
                 {"Am ^F", "A minor: F#"},
                 {"G __e ^^f", "G major: Ebb F##"},
                 {"C _b_e_a", "C major: Eb Ab Bb"},
                 {"Am^f^c", "A minor: C# F#"},
                 {"D maj =c", "D major: F#"}});
}

TEST_CASE("key field: exp wipes the signature of the tonic", "[abc][key]") {
    check_plain({{"A exp _b ^c", "A explicit: C# Bb"},
                 {"D exp", "D explicit"},
                 {"D Exp ^f", "D explicit: F#"},
                 {"Eb exp _e _b", "Eb explicit: Eb Bb"}});
}

TEST_CASE("key field: none, nothing and accidentals alone are no key of a tonic", "[abc][key]") {
    check_plain({{"none", "none"},
                 {"", "none"},
                 {"   ", "none"},
                 {"None", "none"},
                 {"^f ^c", "none: C# F#"},
                 {"none ^f", "none: F#"}});
}

TEST_CASE("key field: the pipes have two sharps, printed or not", "[abc][key]") {
    check_plain({{"Hp", "highland-pipes: C# F#"}, {"HP", "highland-pipes: C# F#"}, {"HP ", "highland-pipes: C# F#"}});
    CHECK(key_words(read_key_field("hp")) != "highland-pipes: C# F#");
}

TEST_CASE("key field: a clef alone says nothing of a key", "[abc][key]") {
    for (const char* text : {"clef=bass", "bass", "treble-8", "middle=d", "octave=-1", "transpose=2", "clef=none",
                             "bass middle=d transpose=-24"}) {
        CAPTURE(text);
        const KeyField field = read_key_field(text);
        CHECK(key_words(field) == "(unsaid)");
        CHECK(codes(field) == "");
    }
}

TEST_CASE("key field: clef name, line and middle= never shift pitch; +8, -8, octave= and transpose= do", "[abc][key]") {
    // Source: ABC standard 2.1, section 4.6 and its erratum of February 2013.
    const Case cases[] = {{"G bass", "clef 0"},
                          {"G clef=bass", "clef 0"},
                          {"G treble-8", "clef -1"},
                          {"G clef=treble+8", "clef 1"},
                          {"G clef=bass3", "clef 0"},
                          {"G alto1-8", "clef -1"},
                          {"G middle=d", ""},
                          {"G m=B,", ""},
                          {"G octave=-1", "octave -1"},
                          {"G octave=+2", "octave 2"},
                          {"G transpose=-24", "transpose -24"},
                          {"G t=5", "transpose 5"},
                          {"G treble transpose=1 octave=1", "clef 0 octave 1 transpose 1"},
                          {"G stafflines=1", ""},
                          {"G Octave=1", "octave 1"}};
    for (const Case& one : cases) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == "G major: F#");
        CHECK(shift_words(field.shift) == one.key);
        CHECK(codes(field) == "");
    }
}

TEST_CASE("key field: accidentals and clefs stand side by side", "[abc][key]") {
    const KeyField field = read_key_field("D mix ^g clef=bass transpose=-12 _b");
    CHECK(key_words(field) == "D mixolydian: F# G# Bb");
    CHECK(shift_words(field.shift) == "clef 0 transpose -12");
    CHECK(codes(field) == "");
}

TEST_CASE("key field: a key that is clear though oddly written is read, with a warning", "[abc][key]") {
    for (const Case& one : {Case{"g", "G major: F#"},
                            {"Bflat", "Bb major: Eb Bb"},
                            {"F sharp", "F# major: C# D# E# F# G# A#"},
                            {"F♯m", "F# minor: C# F# G#"},
                            {"B♭", "Bb major: Eb Bb"},
                            {"gm", "G minor: Eb Bb"},
                            {"d dorian", "D dorian"},
                            {"e flat major", "Eb major: Eb Ab Bb"},
                            {"f sharp minor", "F# minor: C# F# G#"}}) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == one.key);
        CHECK(codes(field) == "abc-odd-key");
    }
}

TEST_CASE("key field: more than seven signs become double signs, with a warning", "[abc][key]") {
    CHECK(key_words(read_key_field("G#")) == "G# major: C# D# E# F## G# A# B#");
    CHECK(codes(read_key_field("G#")) == "abc-odd-key");
    CHECK(codes(read_key_field("D#lyd")) == "abc-odd-key");
    CHECK(key_words(read_key_field("Fbm")) == "Fb minor: Cb Dbb Ebb Fb Gb Abb Bbb");
}

TEST_CASE("key field: words after the key are dropped with a warning", "[abc][key]") {
    for (const Case& one : {Case{"G first tune", "G major: F#"},
                            {"D (2nd)", "D major: C# F#"},
                            {"A dorian !", "A dorian: F#"},
                            {"D exp slowly", "D explicit"},
                            {"none at all", "none"},
                            {"Hp twice", "highland-pipes: C# F#"}}) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == one.key);
        CHECK(codes(field) == "abc-words-after-key");
    }
}

TEST_CASE("key field: what is no key at all is an error and means no signature", "[abc][key]") {
    for (const char* text : {"?", "Highland", "#", "sharp", "xyz", "9", "as you like it"}) {
        CAPTURE(text);
        const KeyField field = read_key_field(text);
        CHECK(field.signature == music::Signature{});
        CHECK(codes(field) == "abc-unknown-key");
    }
}

TEST_CASE("key field: a sign of an accidental begins a new word wherever it stands", "[abc][key]") {
    check_plain({{"Dmix=c", "D mixolydian: F#"},
                 {"Amix^g", "A mixolydian: C# F# G#"},
                 {"Dmix=c^f", "D mixolydian: F#"},
                 {"Am^f", "A minor: F#"},
                 {"Dm=b", "D minor"},
                 {"D minor=b", "D minor"},
                 {"D=c", "D major: F#"},
                 {"D maj=c", "D major: F#"},
                 {"Dexp^f_b", "D explicit: F# Bb"},
                 {"none^f", "none: F#"},
                 {"Hp=c", "highland-pipes: F#"},
                 {"Gdor=B_e clef=bass", "G dorian: Eb"}});
    CHECK(key_words(read_key_field("D trio=c")) == "D major: F#");
    CHECK(codes(read_key_field("D trio=c")) == "abc-words-after-key");
    CHECK(key_words(read_key_field("D my_book")) == "D major: C# F#");
    CHECK(codes(read_key_field("D my_book")) == "abc-words-after-key");
    CHECK(key_words(read_key_field("D m=c")) == "D major: C# F#");  // middle=, in short
}

TEST_CASE("key field: letters glued to a tonic that are no mode are told", "[abc][key]") {
    for (const Case& one : {Case{"Bn", "B major: C# D# F# G# A#"},
                            {"Gfirst", "G major: F#"},
                            {"Essex", "E major: C# D# F# G#"},
                            {"Dmx", "D major: C# F#"},
                            {"Dfoo=c", "D major: F#"}}) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == one.key);
        CHECK(codes(field) == "abc-odd-key");
        CHECK_FALSE(field.not_understood.empty());
    }
    CHECK(read_key_field("Bn").faults.at(0).message ==
          "K: n is glued to B and is no mode; read as B major. If the m beside it is meant, write Bm");
    CHECK(read_key_field("Bm").not_understood.empty());
}

TEST_CASE("key field: German names are read, with a warning", "[abc][key]") {
    for (const Case& one : {Case{"H", "B major: C# D# F# G# A#"},
                            {"Es", "Eb major: Eb Ab Bb"},
                            {"As", "Ab major: Db Eb Ab Bb"},
                            {"Fis", "F# major: C# D# E# F# G# A#"},
                            {"Cis", "C# major: C# D# E# F# G# A# B#"},
                            {"Gism", "G# minor: C# D# F# G# A#"},
                            {"Dis minor", "D# minor: C# D# E# F# G# A#"},
                            {"Des", "Db major: Db Eb Gb Ab Bb"},
                            {"Ges", "Gb major: Cb Db Eb Gb Ab Bb"},
                            {"Hm", "B minor: C# F#"},
                            {"H-Moll", "B minor: C# F#"},
                            {"Fismoll", "F# minor: C# F# G#"},
                            {"Es-dur", "Eb major: Eb Ab Bb"},
                            {"Esmix", "Eb mixolydian: Db Eb Ab Bb"},
                            {"G dur", "G major: F#"},
                            {"a-moll", "A minor"},
                            {"fis", "F# minor: C# F# G#"},  // in German a small letter is minor
                            {"h", "B minor: C# F#"},
                            {"B-Dur", "Bb major: Eb Bb"},
                            {"b moll", "Bb minor: Db Eb Gb Ab Bb"},
                            {"Es=a", "Eb major: Eb Bb"},
                            {"E-minor", "E minor: F#"},
                            {"A-Dorian", "A dorian: F#"}}) {
        CAPTURE(one.written);
        const KeyField field = read_key_field(one.written);
        CHECK(key_words(field) == one.key);
        CHECK(codes(field) == "abc-odd-key");
        CHECK(field.not_understood.empty());
    }
    CHECK(key_words(read_key_field("a")) == "A major: C# F# G#");  // a careless capital: nothing here is German
    check_plain({{"B", "B major: C# D# F# G# A#"}, {"Bm", "B minor: C# F#"}});
}

TEST_CASE("key field: specifiers of later drafts and of programs are left out, and told", "[abc][key]") {
    for (const char* text :
         {"G style=rhythm", "G gchords=1", "G cue=on", "G sound=B", "G transpose=many", "G octave=", "G clef=violin"}) {
        CAPTURE(text);
        CHECK(key_words(read_key_field(text)) == "G major: F#");
        CHECK(codes(read_key_field(text)) == "abc-unknown-specifier");
    }
    check_plain({{"G name=\"Low voice\" snm=L", "G major: F#"}});
}
