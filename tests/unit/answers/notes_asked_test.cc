#include "answers/notes_asked.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"

namespace {

using answers::Part;
using answers::Reason;

const music::NamedNotes kNobody = [](std::string_view) { return std::optional<music::NoteSet>(); };

Reason not_read(const std::string& text, const instruments::Instrument* instrument) {
    std::vector<answers::LeftOutNotes> left_out;
    try {
        answers::notes_asked(Part::have, text, instrument, kNobody, left_out);
    } catch (const answers::Refused& refusal) {
        CHECK(refusal.refusal().part == Part::have);
        return refusal.refusal().reason;
    }
    FAIL("there was an answer");
    return Reason::which_player;
}

}  // namespace

TEST_CASE("notes asked: a note that was named is told when the instrument lacks it, a scale is not",
          "[answers][notes_asked]") {
    const instruments::Instrument* whistle = instruments::find("whistle-d");
    std::vector<answers::LeftOutNotes> left_out;
    const music::NoteSet notes = answers::notes_asked(Part::have, "C4 D4 E4", whistle, kNobody, left_out);
    CHECK(notes == music::read_notes("D4 E4"));
    REQUIRE(left_out.size() == 1);
    CHECK(left_out[0].notes == music::read_notes("C4"));
    CHECK(left_out[0].instrument == whistle->title);
    left_out.clear();
    answers::notes_asked(Part::have, "G:major", whistle, kNobody, left_out);
    CHECK(left_out.empty());
}

TEST_CASE("notes asked: what cannot be read, and what is nothing on the instrument", "[answers][notes_asked]") {
    CHECK(not_read("Q9", nullptr) == Reason::in_words);
    CHECK(not_read("C4", instruments::find("whistle-d")) == Reason::none_on_instrument);
    CHECK(not_read("@nobody", nullptr) == Reason::in_words);
}

TEST_CASE("notes asked: people known by their notes", "[answers][notes_asked]") {
    std::vector<answers::LeftOutNotes> left_out;
    const auto read = [&](const std::string& text) { return answers::read_member(text, nullptr, kNobody, left_out); };
    CHECK(read("D4 E4").name.empty());
    CHECK(read("D4 E4").reach == music::every_note());
    CHECK(read("Ina=D4 E4").name == "Ina");
    CHECK(read("Ina=D4 E4").have == music::read_notes("D4 E4"));
    const music::NoteSet whistle = instruments::find("whistle-d")->note_set();
    CHECK(read("Ina on whistle-d").have == whistle);
    CHECK(read("Ina on whistle-d=D4").have == music::read_notes("D4"));
    CHECK(read("Ina on whistle-d=D4").reach == whistle);
    CHECK_THROWS_AS(read("Ina on zither"), answers::Refused);
}

TEST_CASE("notes asked: a name anywhere means every octave", "[answers][notes_asked]") {
    const music::NoteSet notes = answers::anywhere(Part::avoids, "C# F5");
    CHECK(notes.has(61));
    CHECK(notes.has(73));
    CHECK(notes.has(77));
    CHECK_FALSE(notes.has(65));
}
