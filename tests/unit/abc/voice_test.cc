// Pitches and lengths of one voice, as MIDI numbers and fractions of a whole note; the conventions of report/reading.h.
#include "abc/voice.h"

#include <catch2/catch.hpp>
#include <string>

#include "report/pages/reading.h"
#include "written.h"

using written::AbcFile;
using written::joined;
using written::tune_of;

namespace {

struct VoiceCase {
    const char* music;
    const char* expected;
    const char* findings = "";
};

std::string pitches(const AbcFile& file) { return joined(report::pitch_words(file.only().melody)); }
std::string lengths(const AbcFile& file) { return joined(report::length_words(file.only().melody)); }

void check_pitches(std::initializer_list<VoiceCase> cases, const std::string& key = "C",
                   const std::string& fields = "") {
    for (const VoiceCase& one : cases) {
        CAPTURE(one.music, key);
        const AbcFile file(tune_of(one.music, fields, key));
        CHECK(pitches(file) == one.expected);
        CHECK(file.findings() == one.findings);
    }
}

void check_lengths(std::initializer_list<VoiceCase> cases, const std::string& fields = "") {
    for (const VoiceCase& one : cases) {
        CAPTURE(one.music, fields);
        const AbcFile file(tune_of(one.music, fields));
        CHECK(lengths(file) == one.expected);
        CHECK(file.findings() == one.findings);
    }
}

}  // namespace

TEST_CASE("voice: the signature holds in every octave", "[abc][voice]") {
    check_pitches({{"F,Ffcd'", "54 66 78 73 86"}, {"C, C c c'", "49 61 73 85"}}, "D");
    check_pitches({{"BEbe", "70 63 82 75"}}, "Bb");
}

TEST_CASE("voice: a written sign is absolute", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.2.
    check_pitches({{"^f", "78"}, {"=f", "77"}, {"_c", "71"}, {"^^f", "79"}}, "D");
    check_pitches({{"_C", "59"}}, "A");
    check_pitches({{"_C ^B,", "59 60"}, {"__B ^^c", "69 74"}});
}

TEST_CASE("voice: a sign lasts to the bar line, in every octave", "[abc][voice]") {
    // Source: ABC standard 2.1, section 11.3: the default reach is the pitch in all octaves.
    check_pitches({{"^FFfF,|Ff", "66 66 78 54 65 77"}, {"^F=FF|F", "66 65 65 65"}, {"_Bb|B", "70 82 71"}});
    check_pitches({{"=FFf|F", "65 65 77 66"}}, "G");
}

TEST_CASE("voice: every bar sign ends a sign's life, a line end and an ending do not", "[abc][voice]") {
    for (const std::string bar : {"|", "||", "|]", "[|", "|:", ":|", "::", ".|", "[|]", ":|:", ":||:", "|::", "::|"}) {
        CAPTURE(bar);
        CHECK(pitches(AbcFile(tune_of("^FF" + bar + "F"))) == "66 66 65");
    }
    check_pitches({{"^F\nF", "66 66"},
                   {"^F\\\nF", "66 66"},
                   {"^F[2F", "66 66"},
                   {"^F$F", "66 66"},
                   {"^F[M:3/4]F", "66 66"},
                   {"(3^FGA F", "66 67 69 66"},
                   {"^F (F)", "66 66"},
                   {"^F\nw:la la\nF", "66 66"},
                   {"^F\n% remark\nF", "66 66"}});
}

TEST_CASE("voice: the reach of a sign follows propagate-accidentals", "[abc][voice]") {
    // Source: ABC standard 2.1, section 11.3.
    check_pitches({{"^FFf|F", "66 65 77 65"}}, "C", "I:propagate-accidentals not\n");
    check_pitches({{"^FFf|F", "66 66 77 65"}}, "C", "%%propagate-accidentals octave\n");
    check_pitches({{"^FFf|F", "66 66 78 65"}}, "C", "I:propagate-accidentals pitch\n");
    check_pitches({{"=FF", "65 66"}}, "G", "I:propagate-accidentals not\n");
    CHECK(joined(report::pitch_words(AbcFile("I:propagate-accidentals octave\n\n" + tune_of("^Ff")).only().melody)) ==
          "66 77");
}

TEST_CASE("voice: a sign in a chord or on a grace note binds the bar", "[abc][voice]") {
    check_pitches({{"[^FA]F", "66+69 66"},
                   {"[^FF']", "66+78"},
                   {"[F^c]c|c", "65+73 73 72"},
                   {"{^f}F|F", "g78 66 65"},
                   {"^F{f}G", "66 g78 67"}});
}

TEST_CASE("voice: chords keep the order they are written in", "[abc][voice]") {
    check_pitches({{"[CEG][GEC]", "60+64+67 67+64+60"}, {"[CC]", "60+60"}, {"[C]", "60"}, {"[CzE]", "60+64"}});
}

TEST_CASE("voice: a tie holds the note over the bar with its sign", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.11; common practice, no source, for the sign.
    check_pitches({{"C-C", "60 (60)"},
                   {"^F-|F", "66 (66)"},
                   {"^F-|FF", "66 (66) 65"},
                   {"^F-|^FF", "66 (66) 66"},
                   {"C-|C-|C", "60 (60) (60)"},
                   {"C-D", "60 62"},
                   {"C-c", "60 72"},
                   {"(CC)", "60 60"},
                   {"C- C", "60 (60)"},
                   {"C-\nC", "60 (60)"},
                   {"C.-C", "60 (60)"},
                   {"C-{d}C", "60 g74 (60)"},
                   {"C-[M:3/4]C", "60 (60)"},
                   {"C- [I:nothing] C", "60 (60)"},
                   {"C2-|C2|C2", "60 (60) 60"},
                   {"^C-_D", "61 (61)"}});
}

TEST_CASE("voice: a tie after nothing or before a rest holds nothing", "[abc][voice]") {
    check_pitches({{"-C", "60", "abc-lone-tie 6:1"},
                   {"C-zC", "60 60", "abc-lone-tie 6:2"},
                   {"z-C", "60", "abc-lone-tie 6:2"},
                   {"C4 -C4", "60 (60)"}});
}

TEST_CASE("voice: chords are tied whole or note by note", "[abc][voice]") {
    check_pitches({{"[CE]-[CE]", "60+64 (60+64)"},
                   {"[C-E][CF]", "60+64 (60)+65"},
                   {"[CE]-C", "60+64 (60)"},
                   {"[C-E-][CE]", "60+64 (60+64)"},
                   {"C-[CE]", "60 (60)+64"},
                   {"[^F-A]|[FA]", "66+69 (66)+69"}});
}

TEST_CASE("voice: a tie that meets a whole-bar rest is reported like any other", "[abc][voice]") {
    check_pitches({{"C8-|Z|C8", "60 60", "abc-lone-tie 6:3"}});
}

TEST_CASE("voice: lengths are units times what is written", "[abc][voice]") {
    check_lengths({{"C C2 C/ C3/2 C// C3/", "1/8 1/4 1/16 3/16 1/32 3/16"}});
    check_lengths({{"C C2 C/ C3/2", "1/16 1/8 1/32 3/32"}}, "L:1/16\n");
    check_lengths({{"C C2", "1 2"}}, "L:1\n");
}

TEST_CASE("voice: a meter change changes no unit, a unit change does", "[abc][voice]") {
    // Source: ABC standard 2.1, section 3.1.7.
    check_lengths(
        {{"C[M:2/4]C", "1/8 1/8"}, {"C\nM:2/4\nC", "1/8 1/8"}, {"C[L:1/4]C", "1/8 1/4"}, {"C\nL:1/16\nC", "1/8 1/16"}});
}

TEST_CASE("voice: broken rhythm lengthens one and shortens the other", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.4.
    check_lengths({{"C>D", "3/16 1/16"},
                   {"C<D", "1/16 3/16"},
                   {"C>>D", "7/32 1/32"},
                   {"C<<D", "1/32 7/32"},
                   {"C>>>D", "15/64 1/64"},
                   {"C2>D2", "3/8 1/8"},
                   {"C > D", "3/16 1/16"},
                   {"[CE]>[DF]", "3/16 1/16"},
                   {"C>zD", "3/16 1/8"},
                   {"z>D", "1/16"},
                   {"C>{e}D", "3/16 1/16"},
                   {"C{e}>D", "3/16 1/16"},
                   {"C->C", "3/16 1/16"},
                   {"C>|D", "3/16 1/16"},
                   {"C>D>E", "3/16 3/32 1/16"},
                   {"C2>D", "3/8 1/16"}});
}

TEST_CASE("voice: a broken pair keeps its whole length", "[abc][voice]") {
    for (const char sign : {'>', '<'})
        for (std::size_t size = 1; size <= 6; ++size) {
            const AbcFile file(tune_of("C" + std::string(size, sign) + "D"));
            const auto& sounds = file.only().melody.sounds;
            REQUIRE(sounds.size() == 2);
            CHECK(sum(sounds[0].length, sounds[1].length) == music::Duration(1, 4));
            CHECK((sounds[1].length < sounds[0].length) == (sign == '>'));
        }
}

TEST_CASE("voice: broken rhythm that lacks a side", "[abc][voice]") {
    check_lengths({{">CD", "1/8 1/8", "abc-lone-broken 6:1"},
                   {"CD>", "1/8 3/16", "abc-lone-broken 6:3"},
                   {"C>>>>>>>D", "1/8 1/8", "abc-lone-broken 6:2"}});
}

TEST_CASE("voice: every tuplet takes the time the standard gives it", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.13: p notes in the time of q; n is 3 in 6/8, 9/8 and 12/8, else 2.
    const int simple[] = {0, 0, 3, 2, 3, 2, 2, 2, 3, 2};
    const int compound[] = {0, 0, 3, 2, 3, 3, 2, 3, 3, 3};
    for (int p = 2; p <= 9; ++p)
        for (const std::string meter : {"4/4", "3/4", "5/8", "7/8", "2/2", "none", "6/8", "9/8", "12/8"}) {
            CAPTURE(p, meter);
            const bool is_compound = meter == "6/8" || meter == "9/8" || meter == "12/8";
            const AbcFile file(tune_of("(" + std::to_string(p) + std::string(static_cast<std::size_t>(p), 'C') + "D",
                                       "M:" + meter + "\n"));
            const auto& sounds = file.only().melody.sounds;
            REQUIRE(sounds.size() == static_cast<std::size_t>(p) + 1);
            const music::Duration note = *music::product({1, 8}, {is_compound ? compound[p] : simple[p], p});
            for (int at = 0; at < p; ++at) CHECK(sounds[static_cast<std::size_t>(at)].length == note);
            CHECK(sounds.back().length == music::Duration(1, 8));
            CHECK(file.findings() == "");
        }
}

TEST_CASE("voice: a tuplet counts notes, chords and rests, whatever their length; never graces", "[abc][voice]") {
    check_lengths({{"(3:2:4C2D2EFG", "1/6 1/6 1/12 1/12 1/8"},
                   {"(3C2DE", "1/6 1/12 1/12"},
                   {"(3CzEF", "1/12 1/12 1/8"},
                   {"(3[CE]DEF", "1/12 1/12 1/12 1/8"},
                   {"(3C{g}DEF", "1/12 1/12 1/12 1/8"},
                   {"(3 C D E F", "1/12 1/12 1/12 1/8"},
                   {"(3C|DEF", "1/12 1/12 1/12 1/8"},
                   {"(3:2:2CDE", "1/12 1/12 1/8"},
                   {"(3::2CDE", "1/12 1/12 1/8"},
                   {"(5:4CDEFGA", "1/10 1/10 1/10 1/10 1/10 1/8"},
                   {"((3CDE)F", "1/12 1/12 1/12 1/8"},
                   {"(3C>DE", "1/8 1/24 1/12"}});
}

TEST_CASE("voice: the meter in force at the tuplet decides", "[abc][voice]") {
    check_lengths({{"(5CDEFG [M:6/8] (5CDEFG", "1/20 1/20 1/20 1/20 1/20 3/40 3/40 3/40 3/40 3/40"}});
}

TEST_CASE("voice: tuplets that cannot be", "[abc][voice]") {
    check_lengths({{"(1CD", "1/8 1/8", "abc-bad-tuplet 6:1"},
                   {"(0CD", "1/8 1/8", "abc-bad-tuplet 6:1"},
                   {"(99CD", "1/8 1/8", "abc-bad-tuplet 6:1"},
                   {"(3CD", "1/12 1/12", "abc-short-tuplet 6:1"},
                   {"(3C(3DEF", "1/12 1/12 1/12 1/12", "abc-short-tuplet 6:1"}});
}

TEST_CASE("voice: a chord lasts as its first note, times the length behind it", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.17.
    check_lengths({{"[CE]2", "1/4"},
                   {"[C2E2]", "1/4"},
                   {"[C2E2]3", "3/4"},
                   {"[C2E4]", "1/4"},
                   {"[C/E]2", "1/8"},
                   {"[CE]/", "1/16"}});
}

TEST_CASE("voice: rests take time but are no notes", "[abc][voice]") {
    check_lengths({{"CzCx2C", "1/8 1/8 1/8"}});
    const AbcFile file(tune_of("C2z2x4|Z2|X|y4C"));
    const auto& bars = file.only().melody.bars;
    REQUIRE(bars.size() == 4);
    CHECK(bars[0].length == music::Duration(1, 1));
    CHECK(bars[1].length == music::Duration(2, 1));
    CHECK(bars[1].unit_rests == 2);
    CHECK(bars[2].length == music::Duration(1, 1));
    CHECK(bars[3].length == music::Duration(1, 8));
}

TEST_CASE("voice: graces have no time", "[abc][voice]") {
    const AbcFile file(tune_of("{gab}C {/g}D2"));
    CHECK(pitches(file) == "g79 g81 g83 60 g79 62");
    CHECK(lengths(file) == "1/8 1/4");
    CHECK(file.only().melody.bars[0].length == music::Duration(3, 8));
    CHECK(pitches(AbcFile(tune_of("{[gb]}C"))) == "g79+83 60");
}

TEST_CASE("voice: a grace inside a chord is no note of the chord", "[abc][voice]") {
    const AbcFile file(tune_of("[C{d}E]2"));
    REQUIRE_FALSE(file.only().melody.sounds.empty());
    std::string chord;
    for (const music::Sound& sound : file.only().melody.sounds)
        if (sound.kind == music::Sound::Kind::note)
            for (std::uint32_t head = 0; head < sound.head_count; ++head)
                chord += std::to_string(file.only().melody.heads[sound.first_head + head].midi) + " ";
    CHECK(chord == "60 64 ");
}

TEST_CASE("voice: every sound knows its place in its bar", "[abc][voice]") {
    const AbcFile file(tune_of("A2|C2>D2 (3EFG z2|{c}c"));
    std::string places;
    for (const music::Sound& sound : file.only().melody.sounds) {
        REQUIRE(sound.at);
        places += std::to_string(sound.bar) + "@" + music::to_string(*sound.at) + " ";
    }
    CHECK(places == "0@0 1@0 1@3/8 1@1/2 1@7/12 1@2/3 1@3/4 2@0 2@0 ");
}

TEST_CASE("voice: bars know their repeats, thick lines and endings", "[abc][voice]") {
    const AbcFile file(tune_of("|:C4|D4|1E4:|2F4||G4|]"));
    const auto& bars = file.only().melody.bars;
    REQUIRE(bars.size() == 5);
    CHECK(bars[0].repeat_opens);
    CHECK_FALSE(bars[0].repeat_closes);
    CHECK(bars[2].ending == "1");
    CHECK(bars[2].repeat_closes);
    CHECK(bars[3].ending == "2");
    CHECK(bars[3].thick_after);
    CHECK_FALSE(bars[3].repeat_closes);
    CHECK(bars[4].thick_after);
    const AbcFile both(tune_of("C4::D4:|"));
    REQUIRE(both.only().melody.bars.size() == 2);
    CHECK(both.only().melody.bars[0].repeat_closes);
    CHECK(both.only().melody.bars[1].repeat_opens);
    CHECK(both.only().melody.bars[1].repeat_closes);
}

TEST_CASE("voice: empty bars are no bars", "[abc][voice]") {
    CHECK(AbcFile(tune_of("|C4||D4|]")).only().melody.bars.size() == 2);
    CHECK(AbcFile(tune_of("[|C4| |D4|\n|E4|")).only().melody.bars.size() == 3);
    CHECK(AbcFile(tune_of("C4")).only().melody.bars.size() == 1);
}

TEST_CASE("voice: a key change holds from where it stands, and old signs to the bar line", "[abc][voice]") {
    check_pitches(
        {{"F[K:D]F|F", "65 66 66"}, {"F\nK:D\nF", "65 66"}, {"=F[K:D]F|F", "65 65 66"}, {"F[K:none]F", "65 65"}});
    check_pitches({{"F[K:none]F", "66 65"}, {"F[K:clef=bass]F", "66 66"}, {"F\nK:Am\nF", "66 65"}}, "D");
}

TEST_CASE("voice: octave, transposition and clef shift what sounds, not how it is spelled", "[abc][voice]") {
    // Source: ABC standard 2.1, section 4.6 (volatile).
    check_pitches({{"CF", "48 54"}}, "G octave=-1");
    check_pitches({{"CF", "62 68"}}, "G transpose=2");
    check_pitches({{"CF", "48 54"}}, "G clef=treble-8");
    check_pitches({{"CF", "72 78"}}, "G treble+8");
    check_pitches({{"CF", "60 66"}}, "G bass middle=d");
    check_pitches({{"d", "50"}}, "bass middle=d transpose=-24");
    check_pitches({{"C[K:G]F", "62 68"}}, "G transpose=2");
    const AbcFile file(tune_of("F", "", "G transpose=1"));
    CHECK(music::to_string(file.only().melody.heads[0].name) == "F#");
    CHECK(file.only().melody.heads[0].midi == 67);
}

TEST_CASE("voice: notes beyond MIDI keep their time and lose their sound", "[abc][voice]") {
    const AbcFile file(tune_of("C,,,,,,2 C c''''''"));
    CHECK(pitches(file) == "60");
    CHECK(file.findings() == "abc-out-of-range 6:1, abc-out-of-range 6:12");
    CHECK(file.only().melody.bars[0].length == music::Duration(1, 2));
    CHECK(pitches(AbcFile(tune_of("C,,,,,"))) == "0");
    CHECK(pitches(AbcFile(tune_of("g''''"))) == "127");
}
