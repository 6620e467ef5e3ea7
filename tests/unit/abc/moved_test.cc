#include "abc/moved.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "written.h"

namespace {

// A whole text moved, with the codes of what was found.
struct Moved {
    std::string text;
    std::string findings;
};

Moved move_text(const std::string& text, int semitones) {
    const base::SourceFile source("test.abc", text);
    base::Diagnostics diagnostics;
    Moved result{abc::moved(source, semitones, diagnostics), {}};
    for (const base::Diagnostic& diagnostic : diagnostics.kept()) result.findings += std::string(diagnostic.code) + " ";
    return result;
}

// Music under `K:key`, moved without a finding: the new key and the new music, `A | ABc`.
std::string moved(const std::string& key, const std::string& music, int semitones, const std::string& fields = "") {
    const std::string head = "X:1\nT:Test\nM:4/4\nL:1/8\n" + fields;
    const Moved result = move_text(written::tune_of(music, fields, key), semitones);
    CHECK(result.findings.empty());
    if (!result.text.starts_with(head) || !result.text.ends_with("\n")) return "(other text) " + result.text;
    std::string rest = result.text.substr(head.size(), result.text.size() - head.size() - 1);
    const std::size_t line_end = rest.find('\n');
    return rest.substr(2, line_end - 2) + " | " + rest.substr(line_end + 1);
}

std::vector<int> midi_of(const tune::Setting& setting) {
    std::vector<int> numbers;
    for (const music::NoteHead& head : setting.melody.heads) numbers.push_back(head.midi);
    for (const tune::OtherVoice& voice : setting.others)
        for (const music::NoteHead& head : voice.melody.heads) numbers.push_back(head.midi);
    return numbers;
}

}  // namespace

TEST_CASE("moved: letters go with the key, lengths and layout stay", "[abc][moved]") {
    CHECK(moved("G", "G2 A>B  (3cde | [GBd]4 z4 |]", 2) == "A | A2 B>c  (3def | [Ace]4 z4 |]");
    CHECK(moved("D", "D,3/2 F/ A/2d//  |: f' :|", -2) == "C | C,3/2 E/ G/2c//  |: e' :|");
    CHECK(moved("C", "CDEF GABc", 1) == "Db | DEFG ABcd");
    CHECK(moved("Ador", "A,B,CD EFGA", 3) == "Cdor | CDEF GABc");
}

TEST_CASE("moved: octave marks in the writer's own way", "[abc][moved]") {
    CHECK(moved("C", "B,, B, B b b'", 2) == "D | C, C c c' c''");
    CHECK(moved("C", "C, C c c'", -1) == "B | B,, B, B b");
    CHECK(moved("C", "c, C' C,'", 2) == "D | d, D' D,'");
    CHECK(moved("C", "C c", 24) == "C | c' c''");
    CHECK(moved("C", "C c", -12) == "C | C, C");
}

TEST_CASE("moved: a sign stays a sign of its own kind", "[abc][moved]") {
    CHECK(moved("G", "^c =f _B G", 2) == "A | ^d =g =c A");  // _B is B flat: C natural beside C sharp
    CHECK(moved("F", "=B ^c", 2) == "G | ^c ^d");
    CHECK(moved("C", "^F _B", -2) == "Bb | =E _A");
    CHECK(moved("D", "^^F __B", 2) == "E | ^^G _c");
}

TEST_CASE("moved: a courtesy accidental is written again", "[abc][moved]") {
    CHECK(moved("G", "^f =c | =c c", 2) == "A | ^g =d | =d d");
    CHECK(moved("G", "^c2 c2 =c2 c2", 2) == "A | ^d2 d2 =d2 d2");
}

TEST_CASE("moved: signs hold to the bar line, and in every octave, as they are read", "[abc][moved]") {
    CHECK(moved("C", "^F F f | F", 2) == "D | ^G G g | G");
    CHECK(moved("C", "^F f | F", 2, "%%propagate-accidentals octave\n") == "D | ^G g | G");
    CHECK(moved("C", "^F F", 2, "%%propagate-accidentals not\n") == "D | ^G G");
}

TEST_CASE("moved: without a signature the signs stand at the notes, none twice in a bar", "[abc][moved]") {
    CHECK(moved("none", "CDEF | FFC2", 2) == "none | DE^FG | GGD2");
    CHECK(moved("none", "E E e | E", 2) == "none | ^F F ^f | ^F");  // plain to a reader of either habit
    CHECK(moved("", "E2 E2", 2) == " | ^F2 F2");
    CHECK(moved("none", "B B _B B", 2) == "none | ^c c =c c");
}

TEST_CASE("moved: a tie over the bar line needs no second sign", "[abc][moved]") {
    CHECK(moved("C", "^F4-|F2 F2", 2) == "D | ^G4-|G2 G2");
    CHECK(moved("none", "E4-|E2 E2", 2) == "none | ^F4-|F2 ^F2");
    CHECK(moved("C", "[^F-A]4|[FA]4", 2) == "D | [^G-B]4|[GB]4");
    CHECK(moved("C", "^F4-|^F2 F2", 2) == "D | ^G4-|^G2 G2");
}

TEST_CASE("moved: more than a double sign becomes another letter", "[abc][moved]") {
    CHECK(moved("C", "^^F2 F2", 6) == "F# | ^^B2 B2");

    CHECK(moved("A", "^^G2 G2", 2) == "B | ^^A2 A2");
    CHECK(moved("E", "^^E2", 3) == "G | ^^G2");
    CHECK(moved("Gb", "__B2 B2", 1) == "G | _B2 B2");
    CHECK(moved("B", "^^c c", -5) == "F# | ^^G G");
    CHECK(moved("B", "^^B B", -5) == "F# | ^G G");  // not F with three sharps
}

TEST_CASE("moved: a change of key inside the tune", "[abc][moved]") {
    CHECK(moved("G", "GA[K:D]f^g | [K:clef=bass]fg", 2) == "A | AB[K:E]g^a | [K:clef=bass]ga");
    CHECK(moved("G", "^G2 [K:Em] G2 | G2\nK:none\nf2", 2) == "A | ^A2 [K:F#m] A2 | A2\nK:none\ng2");
    // C to F# is four letters up, G to Db five: the bar's signs are worked out anew.
    CHECK(moved("C", "^G2 [K:G] G2 f2", 6) == "F# | ^^c2 [K:Db] =d2 =c'2");
}

TEST_CASE("moved: voices and layers each keep their own signs", "[abc][moved]") {
    CHECK(moved("none", "V:1\nE2 [V:2] E2 [V:1] E2 [V:2] E2 |", 2, "V:1\nV:2 clef=bass octave=-1 name=\"Low E\"\n") ==
          "none | V:1\n^F2 [V:2] ^F2 [V:1] F2 [V:2] F2 |");
    CHECK(moved("none", "E4 E4 & E8 | E8", 2) == "none | ^F4 F4 & ^F8 | ^F8");
}

TEST_CASE("moved: what shifts the sound keeps doing so", "[abc][moved]") {
    const std::string text =
        "X:1\nT:Test\nV:1 transpose=-2 score=B\nK:D clef=treble-8 transpose=-2\n%%MIDI transpose 5\n"
        "I:transpose 3\ndef ^g|\n";
    CHECK(move_text(text, 2).text ==
          "X:1\nT:Test\nV:1 transpose=-2 score=B\nK:E clef=treble-8 transpose=-2\n"
          "%%MIDI transpose 5\nI:transpose 3\nefg ^a|\n");
}

TEST_CASE("moved: grace notes, slurs, decorations, endings, words", "[abc][moved]") {
    CHECK(moved("G", "{/ag}f2 (!trill!g ~a .b) Hc|1 {^c}d2 :|2 [ {g}ac'] |]", 2) ==
          "A | {/ba}g2 (!trill!a ~b .c') Hd|1 {^d}e2 :|2 [ {a}bd'] |]");
    CHECK(moved("G", "GABc \\\n% remark G A B\nd2 | % G A\nw: G A B | c\ns: \"Am\" * !fed! \"^A\"\nW: A bed", 2) ==
          "A | ABcd \\\n% remark G A B\ne2 | % G A\nw: G A B | c\ns: \"Bm\" * !fed! \"^A\"\nW: A bed");
    CHECK(moved("G", "[P:A] G[r:A bad cab][N:fade]A [Q:\"A\" 1/4=90]y B \"^A\" +fermata+ c", 2) ==
          "A | [P:A] A[r:A bad cab][N:fade]B [Q:\"A\" 1/4=90]y c \"^A\" +fermata+ d");
}

TEST_CASE("moved: chord symbols go with the key they stand in", "[abc][moved]") {
    CHECK(moved("G", "\"G\"G2 \"Am7/C\"A2 \"Fine\"B2 [K:D]\"A7\"c2 \"^A\"d2", 2) ==
          "A | \"A\"A2 \"Bm7/D\"B2 \"Fine\"c2 [K:E]\"B7\"d2 \"^A\"e2");
    CHECK(move_text("X:1\nU: T = \"D7\"\nU: P = \"^D7\"\nK:G\nTGP A\n", 2).text ==
          "X:1\nU: T = \"E7\"\nU: P = \"^D7\"\nK:A\nTAP B\n");
}

TEST_CASE("moved: macros keep their meaning", "[abc][moved]") {
    const Moved plain = move_text("X:1\nm: ~G3 = G{A}G{F}G\nK:G\n~G3 A3 | G3 ~G3 |\n", 2);
    CHECK(plain.text == "X:1\nm: ~A3 = A{B}A{G}A\nK:A\n~A3 B3 | A3 ~A3 |\n");
    const Moved scale = move_text("m: ~n2 = {o}n{m}n\n\nX:1\nK:G\n~G2 ~f2 |\n", 2);
    CHECK(scale.text == "m: ~n2 = {o}n{m}n\n\nX:1\nK:A\n~A2 ~g2 |\n");
    const Moved sharp = move_text("X:1\nm: ~c2 = c^c\nK:G\n~c2 c2 |\n", 2);
    CHECK(sharp.text == "X:1\nm: ~d2 = d^d\nK:A\n~d2 d2 |\n");
    CHECK((plain.findings + scale.findings + sharp.findings).empty());
}

TEST_CASE("moved: a macro that would mean something else is written out", "[abc][moved]") {
    // A tone up, E needs a sharp that the macro cannot give at one place and leave out at another.
    const Moved result = move_text("X:1\nm: ~E2 = E{F}\"Em\"E\nK:none\nC ~E2 z|~E2 E2|\n", 2);
    CHECK(result.text == "X:1\nm: ~F2 = F{G}\"F#m\"F\nK:none\nD ^F{G}\"F#m\"F z|^F{G}\"F#m\"F F2|\n");
    CHECK(result.findings == "abc-macro-written-out ");
    const Moved scale = move_text("m: ~n2 = n{m}n\n\nX:1\nK:C\n~e2[K:C#]~e2|\n", 4);
    CHECK(scale.text == "m: ~n2 = n{m}n\n\nX:1\nK:E\ng{f}g[K:F]a{g}a|\n");
    CHECK(scale.findings == "abc-macro-written-out ");
    const std::string half = "X:1\nm: Q = C2\nK:C\n^Q|\n";  // the sign stands outside, the note inside
    CHECK(move_text(half, 2).text == half);
    CHECK(move_text(half, 2).findings == "abc-not-moved ");
}

TEST_CASE("moved: what has no certain place leaves the tune as it is", "[abc][moved]") {
    for (const std::string text : {
             "X:1\nK:C\nC ^/D E\n",           // a quarter tone
             "X:1\nK:C\nC g'''' d\n",         // the highest note of MIDI
             "X:1\nK:C\nC,,,,,, D\n",         // not read at all
             "X:1\nK:C\nA:|d\nE:area\nF:b\n"  // `E:` is music there; a tone up, `F:` is a stray field
         }) {
        CAPTURE(text);
        const Moved result = move_text(text, 2);
        CHECK(result.text == text);
        CHECK(result.findings == "abc-not-moved ");
    }
}

TEST_CASE("moved: a key that was not understood leaves the tune as it is", "[abc][moved]") {
    for (const char* key : {"Bn", "Gfirst", "?"}) {
        CAPTURE(key);
        const std::string text = written::tune_of("CDE", "", key);
        const Moved result = move_text(text, 2);
        CHECK(result.text == text);
        CHECK(result.findings == "abc-not-moved ");
    }
    CHECK(move_text(written::tune_of("CDE[K:Xyz]F"), 2).findings == "abc-not-moved ");
}

TEST_CASE("moved: accidentals glued to a key go with it", "[abc][moved]") {
    CHECK(moved("Dmix=c", "FcCf", 2) == "Emix=d | GdDg");
    CHECK(moved("Amix^g", "AGag", 1) == "Bbmix=a | BAba");
}

TEST_CASE("moved: the pipes' key is written out, with a remark", "[abc][moved]") {
    const Moved result = move_text("X:1\nK:Hp\nA2 =c2 f2 g2|\n", -2);
    CHECK(result.text == "X:1\nK:Gmix\nG2 _B2 e2 f2|\n");
    CHECK(result.findings == "abc-pipes-moved ");
}

TEST_CASE("moved: every tune of a book, each by its own key", "[abc][moved]") {
    const std::string book =
        "%abc-2.1\nO: Nowhere\n\nX:1\nT:A\nK:G\nGAB|\n\nfree text A B c\n\nX:2\nT:B\nK:Bb\nB^/cd|\n\nX:3\nK:Dm\nDEF\n";
    const Moved result = move_text(book, 2);
    CHECK(
        result.text ==
        "%abc-2.1\nO: Nowhere\n\nX:1\nT:A\nK:A\nABc|\n\nfree text A B c\n\nX:2\nT:B\nK:Bb\nB^/cd|\n\nX:3\nK:Em\nEFG\n");
    CHECK(result.findings == "abc-not-moved ");
}

TEST_CASE("moved: by nothing, not a byte changes", "[abc][moved]") {
    const std::string odd = "X:1\r\nK:  bflat  % c\r\n c,' ^ f ~G | \"am\" \xE2\x99\xAF \r\n\r\n";
    CHECK(move_text(odd, 0).text == odd);
    CHECK(move_text("", 5).text.empty());
    CHECK(move_text("words, no tune\n", 5).text == "words, no tune\n");
    CHECK(move_text("X:1\r\nK:G\r\nGA \r\n", 2).text == "X:1\r\nK:A\r\nAB \r\n");
}

TEST_CASE("moved: every head sounds exactly so much higher, and the same again when moved back", "[abc][moved]") {
    const std::vector<std::string> tunes{
        written::tune_of("^F_B=c^^G|f__b F-|F [CE^G]- [CE_A]|{^c}d c (3_e=e^e", "", "C"),
        written::tune_of("^F_B=c^^G|f__b F-|F [CE^G]- [CE_A]|[K:C#]c d e [K:Cb] c d e", "", "Gb"),
        written::tune_of("^F F f|[K:Am] ^G4-|[K:Ebm]G2 G2 g2|[K:none]G,2 _B2 B2 b2", "", "F#"),
        written::tune_of("DEF G & ^G4 G4 | [D{^c}E]2 C2", "", "D exp ^f _b"),
        written::tune_of("V:2\nEFG\nV:1\n_EFG|E4\nV:2\nE4", "V:1 transpose=3\nV:2 octave=-1\n", "E phr ^g"),
        written::tune_of("+CEG+2 ^F2-F2 | _f=f __e", "%%propagate-accidentals octave\n", "G#")};
    for (const std::string& text : tunes) {
        const written::AbcFile before(text);
        for (int semitones = -abc::kMostSemitones; semitones <= abc::kMostSemitones; ++semitones) {
            const Moved there = move_text(text, semitones);
            CAPTURE(text, semitones, there.text);
            CHECK(there.findings.empty());
            std::vector<int> expected = midi_of(before.only());
            for (int& number : expected) number += semitones;
            CHECK(midi_of(written::AbcFile(there.text).only()) == expected);
            CHECK(midi_of(written::AbcFile(move_text(there.text, -semitones).text).only()) == midi_of(before.only()));
        }
    }
}
