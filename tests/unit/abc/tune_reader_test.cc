// Fields in the music, voices and overlays.
#include "abc/tune_reader.h"

#include <catch2/catch.hpp>
#include <string>

#include "report/pages/reading.h"
#include "written.h"

using written::AbcFile;
using written::joined;
using written::tune_of;

namespace {

std::string pitches(const music::Melody& melody) { return joined(report::pitch_words(melody)); }

// The first voice, then `id: pitches` for each other.
std::string voices(const AbcFile& file) {
    std::string text = pitches(file.only().melody);
    for (const tune::OtherVoice& other : file.only().others) text += " / " + other.id + ": " + pitches(other.melody);
    return text;
}

}  // namespace

TEST_CASE("tune reader: the first voice declared is the melody", "[abc][tune_reader]") {
    CHECK(voices(AbcFile(tune_of("V:1\nCDE\nV:2\nFGA\nV:1\nc\n"))) == "60 62 64 72 / 2: 65 67 69");
    CHECK(voices(AbcFile(tune_of("[V:1]CDE\n[V:2]FGA\n"))) == "60 62 64 / 2: 65 67 69");
    CHECK(voices(AbcFile(tune_of("V:2\nFGA\nV:1\nCDE\n", "V:1\nV:2\n"))) == "60 62 64 / 2: 65 67 69");
    CHECK(voices(AbcFile(tune_of("CDE\nV:2\nFGA\n"))).substr(0, 8) == "60 62 64");
}

TEST_CASE("tune reader: a voice carries its own accidentals, key, unit and shift", "[abc][tune_reader]") {
    // Source: ABC standard 2.1, section 7 (volatile).
    CHECK(voices(AbcFile(tune_of("V:1\n^F\nV:2\nF\nV:1\nF\n"))) == "66 66 / 2: 65");
    CHECK(voices(AbcFile(tune_of("V:1\nF\nV:2\nK:D\nF\nV:1\nF\n"))) == "65 65 / 2: 66");
    CHECK(voices(AbcFile(tune_of("V:1\nC\nV:2\nC\n", "V:1\nV:2 octave=-1 clef=treble\n"))) == "60 / 2: 48");
    CHECK(voices(AbcFile(tune_of("V:1 transpose=2\nC\nV:2\nC\n"))) == "62 / 2: 60");
    const AbcFile file(tune_of("V:1\nC\nV:2\nL:1/4\nC\nV:1\nC\n"));
    CHECK(joined(report::length_words(file.only().melody)) == "1/8 1/8");
    CHECK(joined(report::length_words(file.only().others[0].melody)) == "1/4");
}

TEST_CASE("tune reader: a key change before any voice is named counts for all", "[abc][tune_reader]") {
    CHECK(voices(AbcFile(tune_of("K:D\nV:1\nF\nV:2\nF\n", "V:1\nV:2\n"))) == "66 / 2: 66");
}

TEST_CASE("tune reader: properties of a voice are no music", "[abc][tune_reader]") {
    const AbcFile file(tune_of("V:1 name=\"A B C\" snm=\"G\" stem=up\nCDE\n"));
    CHECK(voices(file) == "60 62 64");
    CHECK(file.findings() == "");
}

TEST_CASE("tune reader: a tie waits for its voice to come back", "[abc][tune_reader]") {
    CHECK(voices(AbcFile(tune_of("V:1\nC-\nV:2\nE\nV:1\nC\n"))) == "60 (60) / 2: 64");
}

TEST_CASE("tune reader: an overlay is a layer of its own, kept apart", "[abc][tune_reader]") {
    // Source: ABC standard 2.1, section 7.4 (volatile).
    CHECK(voices(AbcFile(tune_of("C4E4&G8|c8|"))) == "60 64 72 / &: 67");
    CHECK(voices(AbcFile(tune_of("C8&E8&G8|c8|"))) == "60 72 / &: 64 / &: 67");
    CHECK(voices(AbcFile(tune_of("^F8&F8|F8|"))) == "66 65 / &: 65");
    CHECK(voices(AbcFile(tune_of("C8|D8&&E8|F8|G8|"))) == "60 62 67 / &: 64 65");
}

TEST_CASE("tune reader: inline fields do not break a tie, a tuplet or broken rhythm", "[abc][tune_reader]") {
    CHECK(voices(AbcFile(tune_of("C-[Q:1/4=60]C"))) == "60 (60)");
    const AbcFile tuplet(tune_of("(3C[P:B]DE F"));
    CHECK(joined(report::length_words(tuplet.only().melody)) == "1/12 1/12 1/12 1/8");
    const AbcFile broken(tune_of("C>[N:abc]D"));
    CHECK(joined(report::length_words(broken.only().melody)) == "3/16 1/16");
}

TEST_CASE("tune reader: lines of words and symbols are no music", "[abc][tune_reader]") {
    const AbcFile file(
        tune_of("CDE\nw:a b c d|e f g\n+:gab\ns:!f! * !p!\nW:and so it goes abc\nr:remark cde\nN:note fga\nFGA"));
    CHECK(voices(file) == "60 62 64 65 67 69");
    CHECK(file.findings() == "");
}

TEST_CASE("tune reader: symbols set in the music hold from there", "[abc][tune_reader]") {
    CHECK(AbcFile(tune_of("qC\nU:q=!trill!\nqC")).findings() == "abc-unknown-letter 6:1");
}

TEST_CASE("tune reader: a field continued by +: is read with its end", "[abc][tune_reader]") {
    CHECK(music::to_string(AbcFile("X:1\nT:t\nK:A\n+:minor\nC\n").only().key) == "A minor");
    CHECK(AbcFile("X:1\nT:Rain on\n% a remark\n+:the Slipway\n+:again\nK:C\nC\n").only().titles ==
          std::vector<std::string>{"Rain on the Slipway again"});
}

TEST_CASE("tune reader: the first K: is the tune's key", "[abc][tune_reader]") {
    const AbcFile file(tune_of("F\nK:D\nF[K:Bb]F", "", "G dorian"));
    CHECK(music::to_string(file.only().key) == "G dorian");
    REQUIRE(file.only().melody.keys.size() == 3);
    CHECK(file.only().melody.keys[1].before_sound == 1);
    CHECK(music::to_string(file.only().melody.keys[2].key) == "Bb major");
}

TEST_CASE("tune reader: of a key that cannot be read in the music, what is said is what is done",
          "[abc][tune_reader]") {
    const AbcFile file(tune_of("F[K:?]F", "", "D"));
    REQUIRE(file.diagnostics().kept().size() == 1);
    const bool says_no_signature = file.diagnostics().kept()[0].message.find("no signature") != std::string::npos;
    CHECK(voices(file) == (says_no_signature ? "66 65" : "66 66"));
}

TEST_CASE("tune reader: without K: there is no signature", "[abc][tune_reader]") {
    const AbcFile file("X:1\nT:t\nL:1/8\nFcF|\n");
    CHECK(music::to_string(file.only().key) == "none");
    CHECK(voices(file) == "65 72 65");
}

TEST_CASE("tune reader: a tune may have no body", "[abc][tune_reader]") {
    const AbcFile file("X:1\nT:t\nK:D\n");
    CHECK(file.only().melody.sounds.empty());
    CHECK(file.findings() == "abc-no-music 1:1");
}

TEST_CASE("tune reader: whole-bar rests follow the meter in force", "[abc][tune_reader]") {
    const AbcFile file(tune_of("Z|[M:3/4]Z2|C6|"));
    CHECK(file.only().melody.bars[0].length == music::Duration(1, 1));
    CHECK(file.only().melody.bars[1].length == music::Duration(3, 2));
    CHECK(file.only().melody.bars[1].unit_rests == 2);
    CHECK(music::to_string(file.only().melody.bars[2].meter) == "3/4");
}

TEST_CASE("tune reader: what holds at the first note is the tune's", "[abc][tune_reader]") {
    const auto told = [](const tune::Setting& setting) {
        return music::to_string(setting.meter) + (setting.meter_is_stated ? "! " : " ") +
               music::to_string(setting.unit) + " " + music::to_string(setting.key) + ", " +
               music::to_string(setting.key_in_force) + " " + setting.rhythm.value_or("-") + " " +
               (setting.tempo ? std::to_string(setting.tempo->beats_a_minute.value_or(0)) : "-");
    };
    const std::string head = "X:1\nT:Test\nK:C\n";
    CHECK(told(AbcFile(head + "CDE\n").only()) == "none 1/8 C major, C major - -");
    CHECK(told(AbcFile(head + "M:6/8\nL:1/4\nK:Em\nR:jig\nQ:90\nCDE\n").only()) == "6/8! 1/4 C major, E minor jig 90");
    CHECK(told(AbcFile(head + "[M:6/8][L:1/4][K:Em][R:jig][Q:90]CDE\n").only()) == "6/8! 1/4 C major, E minor jig 90");
    CHECK(told(AbcFile(head + "z4[M:6/8][K:G]|C\n").only()) == "6/8! 1/8 C major, G major - -");
    CHECK(told(AbcFile(head + "{c}C[M:6/8][K:G][L:1/4][R:jig]D\n").only()) == "none 1/8 C major, C major - -");
    CHECK(told(AbcFile(head + "K:clef=bass\nCDE\n").only()) == "none 1/8 C major, C major - -");
    // A meter behind K: leaves the unit as the header's end settled it.
    CHECK(told(AbcFile(head + "M:2/4\nCDE\n").only()) == "2/4! 1/8 C major, C major - -");
    CHECK(told(AbcFile("X:1\nT:Test\nM:2/4\nK:C\nM:4/4\nCDE\n").only()) == "4/4! 1/16 C major, C major - -");
}

TEST_CASE("tune reader: fields of another voice or layer are not the tune's", "[abc][tune_reader]") {
    const AbcFile file(tune_of("V:2\nM:3/4\nK:D\nF\nV:1\nF\n", "V:1\nV:2\n"));
    CHECK(music::to_string(file.only().meter) == "4/4");
    CHECK(music::to_string(file.only().key_in_force) == "C major");
}

TEST_CASE("tune reader: findings at M: and K: point at those in force", "[abc][tune_reader]") {
    const AbcFile file("X:1\nT:Test\nM:4/4\nK:C\nM:6/8\nK:G\nGAB\n");
    CHECK(file.source().place_of(file.only().meter_where->begin).line == 5);
    CHECK(file.source().place_of(file.only().key_where->begin).line == 6);
}

TEST_CASE("tune reader: signs that touch no note are told once a file", "[abc][tune_reader]") {
    const AbcFile file(tune_of("kCkD!E\nJ:a\nJ:b\n!F!GqA") + "\n" + tune_of("kC\nJ:c\nD!E"));
    CHECK(file.findings() ==
          "abc-unknown-letter 6:1, abc-old-break 6:5, abc-unknown-field 7:1, abc-unknown-letter 9:5, abc-number-again "
          "11:1");
    CHECK(file.diagnostics().kept()[0].message == "k has no meaning in music here; left out, 3 times in this file");
}

TEST_CASE("tune reader: a field in brackets that nobody knows is told once a file, those of the standard are not",
          "[abc][tune_reader]") {
    const AbcFile file(tune_of("C[J:slower]D|[J:again]E F|[T:Turn][N:note]G4|[j:x]A4|") + "\n" + tune_of("C[J:more]D"));
    CHECK(file.findings() == "abc-unknown-field 6:2, abc-unknown-field 6:46, abc-number-again 8:1");
    CHECK(file.diagnostics().kept()[0].message == "[J:...] is no field of ABC 2.1; left out, 3 times in this file");
    CHECK(file.only().melody.sounds.size() == 6);
}

TEST_CASE("tune reader: the tempo is the one at the first note", "[abc][tune_reader]") {
    CHECK_FALSE(AbcFile("X:1\nT:t\nK:D\nG|\n").only().tempo);
    CHECK(AbcFile("X:1\nT:t\nQ:1/4=100\nK:D\nG|\n").only().tempo->beats_a_minute == 100);
    CHECK(AbcFile("X:1\nT:t\nQ:1/4=100\nK:D\nQ:1/4=80\nG|\n").only().tempo->beats_a_minute == 80);
    CHECK(AbcFile("X:1\nT:t\nK:D\n[Q:\"Slow\"]G|\n").only().tempo->words == "Slow");
    CHECK(AbcFile("X:1\nT:t\nQ:1/4=100\nK:D\nG|\nQ:1/4=80\nG|\n").only().tempo->beats_a_minute == 100);
}

TEST_CASE("tune reader: syllables under the notes are counted, of two letters and more", "[abc][tune_reader]") {
    // Source of the signs between them: ABC standard 2.1, section 5.1.
    const auto syllables = [](const std::string& lines) {
        return AbcFile("X:1\nT:t\nK:D\nGABc|\n" + lines).only().sung_syllables;
    };
    CHECK(syllables("") == 0);
    CHECK(syllables("w:Down by the wa-ter_ * | side~now\n") == 7);
    CHECK(syllables("w:one two\nw:three four\n") == 4);
    CHECK(syllables("w:G A B c\n") == 0);
    CHECK(syllables("w:1 2 3\n") == 0);
    CHECK(syllables("w:\xC3\xA9t\xC3\xA9 \xC3\xB3ir\n") == 2);
    CHECK(syllables("W:Down by the water\n") == 0);
}
