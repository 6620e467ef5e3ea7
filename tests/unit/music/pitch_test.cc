#include "music/pitch.h"

#include <catch2/catch.hpp>
#include <string>

#include "music/key.h"

using music::Letter;
using music::NoteName;
using music::Pitch;

namespace {

const std::string kLetterText = "CDEFGAB";

template <typename Visit>
void for_every_pitch(Visit visit) {
    for (int letter = 0; letter < music::kLetters; ++letter)
        for (int accidental = -2; accidental <= 2; ++accidental)
            for (int octave = -1; octave <= 9; ++octave)
                visit(Pitch{{static_cast<Letter>(letter), static_cast<std::int8_t>(accidental)},
                            static_cast<std::int8_t>(octave)});
}

std::string spelled(const Pitch& pitch) {
    static const std::string kSigns[] = {"bb", "b", "", "#", "##"};
    return std::string(1, kLetterText[static_cast<std::size_t>(pitch.name.letter)]) +
           kSigns[pitch.name.accidental + 2] + std::to_string(pitch.octave);
}

}  // namespace

TEST_CASE("pitch: every spelled pitch within MIDI is printed and read back the same", "[music][pitch]") {
    int within = 0;
    for_every_pitch([&](const Pitch& pitch) {
        const std::string text = music::to_string(pitch);
        CHECK(text == spelled(pitch));
        const auto read = music::parse_pitch(text);
        const bool sounds = pitch.midi() >= 0 && pitch.midi() <= 127;
        CHECK(read.has_value() == sounds);
        if (read) CHECK(*read == pitch);
        within += sounds ? 1 : 0;
    });
    // 7 letters, 5 accidentals, 11 octaves. Below MIDI lie Cb-1 and Cbb-1; above it G#9 G##9, Ab9 A9 A#9 A##9 and all
    // five B9.
    CHECK(within == 385 - 2 - 11);
}

TEST_CASE("pitch: MIDI numbers count semitones from C-1, middle C is 60 and A4 is 69", "[music][pitch]") {
    // Source: MIDI 1.0 (middle C = 60); ABC standard 2.1, section 4.1: the octave of C to B in capitals and of c to b.
    const int capitals[] = {60, 62, 64, 65, 67, 69, 71};
    for (std::size_t letter = 0; letter < 7; ++letter) {
        CHECK(Pitch{{static_cast<Letter>(letter), 0}, 4}.midi() == capitals[letter]);
        CHECK(Pitch{{static_cast<Letter>(letter), 0}, 5}.midi() == capitals[letter] + 12);
    }
    CHECK(music::parse_pitch("A4")->midi() == 69);
    CHECK(music::parse_pitch("C-1")->midi() == 0);
    CHECK(music::parse_pitch("G9")->midi() == 127);
}

TEST_CASE("pitch: an octave step is twelve semitones, an accidental step is one", "[music][pitch]") {
    for_every_pitch([](const Pitch& pitch) {
        Pitch up = pitch;
        ++up.octave;
        CHECK(up.midi() - pitch.midi() == 12);
        CHECK(((pitch.midi() % 12) + 12) % 12 == pitch.name.pitch_class());
        if (pitch.name.accidental == 2) return;
        Pitch sharper = pitch;
        ++sharper.name.accidental;
        CHECK(sharper.midi() - pitch.midi() == 1);
    });
}

TEST_CASE("pitch: the octave is that of the letter", "[music][pitch]") {
    // Source: common practice, no source.
    CHECK(music::same_sound(*music::parse_pitch("Cb4"), *music::parse_pitch("B3")));
    CHECK(music::same_sound(*music::parse_pitch("B#3"), *music::parse_pitch("C4")));
    CHECK(music::same_sound(*music::parse_pitch("F#4"), *music::parse_pitch("Gb4")));
    CHECK_FALSE(*music::parse_pitch("F#4") == *music::parse_pitch("Gb4"));
}

TEST_CASE("pitch: names are read in either case and with the signs of printed music", "[music][pitch]") {
    CHECK(music::to_string(*music::parse_note_name("f#")) == "F#");
    CHECK(music::to_string(*music::parse_note_name("bb")) == "Bb");
    CHECK(music::to_string(*music::parse_note_name("b")) == "B");
    CHECK(music::to_string(*music::parse_note_name("C♯")) == "C#");
    CHECK(music::to_string(*music::parse_note_name("E♭")) == "Eb");
    CHECK(music::to_string(*music::parse_note_name("G♮")) == "G");
    CHECK(music::to_string(*music::parse_pitch("e♭5")) == "Eb5");
    CHECK(music::to_string(*music::parse_pitch("bb3")) == "Bb3");
}

TEST_CASE("pitch: what is no pitch is refused", "[music][pitch]") {
    for (const char* text : {"", "H4", "C", "4", "C10", "C-2", "C#", "Cx4", "C###4", "Cbbb4", "C4 ", " C4", "C 4",
                             "C4#", "G#9", "Cb-1", "C+4", "C-", "♯4"}) {
        CAPTURE(text);
        CHECK_FALSE(music::parse_pitch(text));
    }
    for (const char* text : {"", "H", "C4", "C###", "Cbbb", "C ", "is", "C#x", "♯"}) {
        CAPTURE(text);
        CHECK_FALSE(music::parse_note_name(text));
    }
}

TEST_CASE("pitch: no note is sharp and flat at once", "[music][pitch]") {
    for (const char* text : {"C#b", "Cb#", "C##b", "C♯♭", "Gb♯"}) {
        CAPTURE(text);
        CHECK_FALSE(music::parse_note_name(text));
    }
}

TEST_CASE("pitch: the chain of fifths names every note once, up and down", "[music][pitch]") {
    // Source: common practice, no source: a fifth up is seven semitones.
    for (int fifths = -15; fifths <= 19; ++fifths) {
        const NoteName name = music::name_at_fifths(fifths);
        CHECK(music::fifths_above_c(name) == fifths);
        CHECK(name.pitch_class() == ((fifths * 7) % 12 + 12) % 12);
    }
    CHECK(music::to_string(music::name_at_fifths(-1)) == "F");
    CHECK(music::to_string(music::name_at_fifths(6)) == "F#");
    CHECK(music::to_string(music::name_at_fifths(-2)) == "Bb");
    CHECK(music::to_string(music::name_at_fifths(-15)) == "Fbb");
    CHECK(music::to_string(music::name_at_fifths(19)) == "B##");
}

TEST_CASE("spelling: a note is spelled to sound as it is, beside every signature", "[music][pitch]") {
    for (int fifths = -7; fifths <= 7; ++fifths)
        for (int midi = 0; midi < 128; ++midi) {
            const Pitch pitch = music::spell_midi(midi, fifths);
            if (pitch.midi() != midi) FAIL(music::to_string(pitch) << " for " << midi << " beside " << fifths);
        }
    SUCCEED();
}

TEST_CASE("spelling: the notes of a signature take its own names", "[music][pitch]") {
    for (int fifths = -7; fifths <= 7; ++fifths) {
        const music::Signature signature = music::signature_of_fifths(fifths);
        for (std::size_t letter = 0; letter < signature.size(); ++letter) {
            const NoteName name{static_cast<Letter>(letter), signature[letter]};
            CAPTURE(fifths, music::to_string(name));
            CHECK(music::spell(name.pitch_class(), fifths) == name);
        }
    }
}

TEST_CASE("spelling: without a signature the twelve names are the usual ones", "[music][pitch]") {
    const char* names[] = {"C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B"};
    for (int pitch_class = 0; pitch_class < 12; ++pitch_class)
        CHECK(music::to_string(music::spell(pitch_class)) == names[pitch_class]);
}

// ISO 16:1975 and the MIDI tuning convention; the values of equal temperament from memory.
TEST_CASE("pitch: frequencies of sounding notes", "[music]") {
    CHECK(music::hertz(69) == 440.0);
    CHECK(music::hertz(57) == 220.0);
    CHECK(music::hertz(21) == 27.5);
    CHECK(music::hertz(60) == Approx(261.6256).epsilon(1e-6));
    CHECK(music::hertz(108) == Approx(4186.009).epsilon(1e-6));
    CHECK(music::hertz(74) == Approx(587.3295).epsilon(1e-6));
    for (int midi = 1; midi < 128; ++midi) CHECK(music::hertz(midi) / music::hertz(midi - 1) == Approx(1.0594630944));
}
