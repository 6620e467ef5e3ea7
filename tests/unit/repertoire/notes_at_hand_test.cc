#include "repertoire/notes_at_hand.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"

using music::NoteSet;

namespace {

NoteSet notes(const char* text) { return music::read_notes(text); }

}  // namespace

TEST_CASE("notes at hand: those said, and those of the tunes that are known", "[repertoire]") {
    tune::Player ina;
    CHECK(repertoire::notes_at_hand(ina, {}, nullptr).empty());
    const std::vector<NoteSet> known{notes("D4 E4 F#4"), notes("D4 C5")};
    CHECK(repertoire::notes_at_hand(ina, known, nullptr) == notes("D4 E4 F#4 C5"));
    ina.notes = notes("G4 D4");
    CHECK(repertoire::notes_at_hand(ina, {}, nullptr) == notes("D4 G4"));
    CHECK(repertoire::notes_at_hand(ina, known, nullptr) == notes("D4 E4 F#4 G4 C5"));
}

TEST_CASE("notes at hand: an instrument has no others", "[repertoire]") {
    tune::Player ina;
    ina.notes = notes("C4 D4 E4");  // a D whistle has nothing below D4
    CHECK(repertoire::notes_at_hand(ina, {}, instruments::find("whistle-d")) == notes("D4 E4"));
}
