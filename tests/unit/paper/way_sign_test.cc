#include "paper/way_sign.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"

using paper::Hole;
using paper::WaySign;

namespace {

WaySign usual(const char* instrument, const char* note) {
    const auto* known = instruments::find(instrument);
    REQUIRE(known);
    const auto* found = known->note(music::read_notes(note).lowest());
    REQUIRE(found);
    return paper::sign_of(*known, found->ways.front());
}

std::string usual_words(const char* instrument, const char* note) {
    const auto* known = instruments::find(instrument);
    return paper::way_in_words(*known, known->note(music::read_notes(note).lowest())->ways.front());
}

}  // namespace

TEST_CASE("way sign: rows of buttons are told apart by shape, the air by the strip", "[paper][way_sign]") {
    const WaySign inner = usual("bc21", "G4");
    CHECK(inner.digits == "5");
    CHECK(inner.shape == WaySign::Shape::plain);
    CHECK(inner.strip == "press");
    CHECK(inner.is_dark);
    const WaySign outer = usual("bc21", "F#4");
    CHECK(outer.shape == WaySign::Shape::square);
    CHECK_FALSE(usual("bc21", "A4").is_dark);
    CHECK(usual("onerow-d", "D4").shape == WaySign::Shape::plain);
    CHECK(usual("english48", "G3").lane == 1);
    CHECK(usual("english48", "A3").lane == 0);
    CHECK(usual("english48", "F#4").shape == WaySign::Shape::square);
}

TEST_CASE("way sign: holes from the end that is blown, a gap between the hands", "[paper][way_sign]") {
    const WaySign low = usual("whistle-d", "D4");
    CHECK(low.holes == std::vector<Hole>{Hole::covered, Hole::covered, Hole::covered, Hole::gap, Hole::covered,
                                         Hole::covered, Hole::covered});
    CHECK(low.breaths == 0);
    CHECK(usual("whistle-d", "E5").breaths == 1);
    const WaySign pipes = usual("highland-pipes", "A5");
    CHECK(pipes.has_thumb);
    CHECK(pipes.holes.front() == Hole::open);
    CHECK(pipes.holes.size() == 9);
}

TEST_CASE("way sign: a recorder's numbers are holes that are covered", "[paper][way_sign]") {
    const WaySign fork = usual("recorder-descant", "F4");  // T 123 4 67
    CHECK(fork.holes == std::vector<Hole>{Hole::covered, Hole::covered, Hole::covered, Hole::covered, Hole::gap,
                                          Hole::covered, Hole::open, Hole::covered, Hole::covered});
    const WaySign half = usual("recorder-descant", "C#4");  // T 123 456 7half
    CHECK(half.holes.back() == Hole::half);
    CHECK(usual("recorder-descant", "D5").holes.front() == Hole::open);  // 2
    CHECK(usual("recorder-descant", "E5").holes.front() == Hole::half);  // t 123 45
}

TEST_CASE("way sign: fingers on strings, frets, holes that are blown, levers", "[paper][way_sign]") {
    const WaySign finger = usual("fiddle-1", "F#4");
    CHECK(finger.digits == "2");
    CHECK(finger.beneath == "high");
    CHECK(finger.strip == "D string");
    CHECK(finger.is_dark != usual("fiddle-1", "B4").is_dark);  // neighbours differ
    CHECK(usual("fiddle-1", "D4").digits == "0");
    CHECK(usual("harmonica-d", "F#4").digits == "5");
    CHECK(usual("harmonica-d", "F#4").strip == "blow");
    CHECK(usual("harp-c", "F#4").kind == WaySign::Kind::none);
    CHECK(usual("voice-high", "G4").kind == WaySign::Kind::none);
}

TEST_CASE("way sign: in words, as a player would say it", "[paper][way_sign]") {
    CHECK(usual_words("bc21", "F#4") == "outer row, button 5, press");
    CHECK(usual_words("fiddle-1", "F#4") == "D string, finger 2 high");
    CHECK(usual_words("fiddle-1", "D4") == "D string, open");
    CHECK(usual_words("english48", "F#4") == "right hand, outer row, button 4");
    CHECK(usual_words("harmonica-d", "F#4") == "hole 5, blow");
    CHECK(usual_words("onerow-d", "D4").starts_with("button "));
    CHECK(usual_words("whistle-d", "D4").empty());
}

TEST_CASE("way sign: every way of every instrument has a sign that its layout has room for", "[paper][way_sign]") {
    for (const std::string& id : instruments::ids()) {
        const auto& instrument = *instruments::find(id);
        const paper::SignLayout layout = paper::layout_of(instrument);
        for (const auto& note : instrument.notes)
            for (const auto& way : note.ways) {
                const WaySign sign = paper::sign_of(instrument, way);
                INFO(id << " " << way.fingering);
                CHECK(sign.lane < layout.lanes);
                CHECK(sign.holes.size() <= layout.holes);
                if (sign.kind == WaySign::Kind::number) CHECK_FALSE(sign.digits.empty());
                if (way.direction != instruments::Direction::none) CHECK(layout.has_strip);
                CHECK(sign.strip.find_first_of("{}") == std::string::npos);
            }
    }
}
