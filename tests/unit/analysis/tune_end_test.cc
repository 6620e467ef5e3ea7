#include "analysis/tune_end.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/note_uses.h"

namespace {

// The note a player ends on, as MIDI; 0 without one.
int last_note(const std::string& music, const std::string& fields = "") {
    const tune::Setting setting = written::AbcFile(written::tune_of(music, fields)).only();
    for (std::size_t at = analysis::find_tune_end(setting.melody); at-- > 0;)
        if (setting.melody.sounds[at].kind == music::Sound::Kind::note)
            return analysis::top_note(setting.melody, setting.melody.sounds[at]);
    return 0;
}

constexpr int C = 60, D = 62, E = 64, F = 65, G = 67, A = 69;

}  // namespace

TEST_CASE("tune end: without a word it is the last note", "[analysis][tune_end]") {
    CHECK(last_note("C8|D8|") == D);
    CHECK(last_note("C8:|:D4F4:|") == F);
    CHECK(last_note("") == 0);
    CHECK(last_note("z8|") == 0);
}

TEST_CASE("tune end: at Fine, however it is written", "[analysis][tune_end]") {
    // Source: the decorations of ABC 2.1, section 4.14; annotations as tune books have them.
    for (const char* fine : {"!fine!", "\"Fine\"", "\"_fine\"", "\"   Fine\"", "\"^FINE\""}) {
        CAPTURE(fine);
        CHECK(last_note("C4" + std::string(fine) + "E4:|:D8|F8!D.C.!|]") == E);
        CHECK(last_note("C4E4" + std::string(fine) + ":|:D8|F8|]") == E);
    }
    CHECK(last_note("C4 !fine!E2 G2:|:D8|F8|]") == E);  // a lead-back behind it
    CHECK(last_note("C4 !fine!{D}[EG]2 A2:|:D8|F8|]") == G);
}

TEST_CASE("tune end: where it goes back to the beginning", "[analysis][tune_end]") {
    // Source: common practice, no source; Ryan's Mammoth Collection (1883) writes a fermata over the bar line for Fine.
    for (const char* back : {"!D.C.!", "\"_D.C.\"", "\"D.C.\"", "\"DC\"", "!dacapo!", "!D.C.alfine!"}) {
        CAPTURE(back);
        CHECK(last_note("C8|E8:|:D8|F8" + std::string(back) + ":|") == E);
        CHECK(last_note("C8|E8:|:D8|A8 H:|:G8|F8" + std::string(back) + ":|") == A);
        CHECK(last_note("C8|HE4G4:|:D8|F8" + std::string(back) + ":|") == G);  // held on the way: no end
    }
    CHECK(last_note("C8|E8:|:D8|F8\"_SEGUE\":|") == F);  // a word about the bow
    CHECK(last_note("C8|D8|E8!D.C.!") == E);             // one part, which it ends
}

TEST_CASE("tune end: a pick-up written out again at the end leads back", "[analysis][tune_end]") {
    CHECK(last_note("DE|C8|G6 DE|") == G);
    CHECK(last_note("DE|C8|G6:|") == G);
    CHECK(last_note("DE|C8|G6 ED|") == D);  // other notes: part of the tune
    CHECK(last_note("DE|C8|G4 DE|") == E);  // the bar is short without them
    CHECK(last_note("DE|C8|G6 D2|") == D);  // another rhythm
    CHECK(last_note("DE|C8|z6 DE|") == C);
}

TEST_CASE("tune end: where it goes back to a sign", "[analysis][tune_end]") {
    // Source: common practice, no source.
    for (const char* sign : {"!segno!", "\"^Segno\"", "\"segno\"", "S"})
        for (const char* back : {"!D.S.!", "\"_D.S.\"", "\"Dal Segno\""}) {
            CAPTURE(sign, back);
            const std::string begin = "ed" + std::string(sign) + "||";
            CHECK(last_note(begin + "C8|G4E4|C8|E6 z2||D8|F8|D8|A6 GB" + back + "|]") == E);
            CHECK(last_note(begin + "C8|G4E4|C8|E6 FB||D8|F8|D8|A6 GB" + back + "|]") == E);  // leads to the sign
            CHECK(last_note(begin + "C8|G4E4|C8|E8||D8|A8H||D8|A6 GB" + back + "|]") == A);
        }
    CHECK(last_note("C8|E8||!segno!D8|F8:|G8|A8!D.S.!|]") == F);  // the part with the sign is played again
    CHECK(last_note("C8|E8||D8|F8!D.S.!|]") == E);                // no sign: to the beginning
}

TEST_CASE("tune end: repeated from a sign to a sign", "[analysis][tune_end]") {
    // Source: common practice of old engravers, no source.
    for (const char* sign : {"!segno!", "\"^Segno\"", "S"}) {
        CAPTURE(sign);
        const std::string begin = "ed" + std::string(sign) + "||C8|G4E4|C8|E8||D8|F8|";
        CHECK(last_note(begin + "A6 GB" + sign + "|]") == A);  // what leads back is as long as the pick-up
        CHECK(last_note(begin + "A8" + sign + "|]") == A);
        CHECK(last_note("ed" + std::string(sign) + "||C8|E8H||D8|A6 GB" + sign + "|]") == E);
        CHECK(last_note(std::string(sign) + "C8|E8||D8|A6 GF" + sign + "|]") == F);  // no pick-up, nothing leads back
    }
    CHECK(last_note("!segno!C8|E8||D8|F8|]") == F);  // a sign that nothing goes back to
}

TEST_CASE("tune end: at the end of a coda", "[analysis][tune_end]") {
    for (const char* back : {"!D.S.alcoda!", "!D.C.alcoda!", "\"D.S. al Coda\"", "!dacoda!"}) {
        CAPTURE(back);
        CHECK(last_note("!segno!C8|E8:|D8|!coda!F8" + std::string(back) + "||!coda!G8|A8|]") == A);
    }
}
