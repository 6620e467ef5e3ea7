#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"
#include "paper/instrument_figure.h"
#include "paper/ladder.h"

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++count;
    return count;
}

}  // namespace

TEST_CASE("instrument figure: every instrument but voices and what only words can tell is drawn",
          "[paper][instrument_figure]") {
    for (const std::string& id : instruments::ids()) {
        const auto& instrument = *instruments::find(id);
        INFO(id);
        const paper::InstrumentNotes notes{music::read_notes("G4 A4 B4"), music::read_notes("D5"), 1,
                                           paper::Names::letters};
        const auto figure = paper::draw_instrument(instrument, notes, 178);
        const bool is_drawn = !id.starts_with("voice") && id != "northumbrian-7";
        CHECK(figure.has_value() == is_drawn);
        if (!figure) continue;
        CHECK(figure->height > 10);
        CHECK(figure->height < 120);
        CHECK(figure->svg().find("high D: ") != std::string::npos);
        CHECK(figure->svg().find("(new)") != std::string::npos);
        CHECK(count_of(figure->svg(), "stroke-width=\"0.9\"") >= 1);  // the frame of the new note
    }
}

TEST_CASE("instrument figure: nothing where none of the notes is on it", "[paper][instrument_figure]") {
    const paper::InstrumentNotes low{music::read_notes("C2"), {}, 0, paper::Names::letters};
    CHECK_FALSE(paper::draw_instrument(*instruments::find("whistle-d"), low, 178));
}

TEST_CASE("ladder: had, lacking and new are told apart by shape and word", "[paper][ladder]") {
    answers::Rungs rungs;
    rungs.tunes = 20;
    rungs.open = 7;
    rungs.rungs = {
        {62, true, false, 0, 20}, {64, false, true, 4, 9}, {66, false, false, 9, 9}, {67, false, false, 0, 3}};
    rungs.next = 66;
    rungs.hardly = 2;
    const paper::Figure figure = paper::draw_ladder(rungs, {paper::Names::letters, 1, {{64, "lesson 2"}}}, 80);
    const std::string svg = figure.svg();
    CHECK(svg.find("7 of 20 tunes are open. D: have; E: new, opens 4; F sharp: lack, opens 9; G: lack, opens 0.") !=
          std::string::npos);
    CHECK(svg.find(">lesson 2, opens 4</text>") != std::string::npos);
    CHECK(svg.find(">9</text>") != std::string::npos);
    CHECK(paper::ladder_legend(rungs).find("2 notes that hardly any tune needs") != std::string::npos);
    // Whole rungs reach past both rails.
    CHECK(count_of(svg, "width=\"24.4\" height=\"1.2\"") == 2);
}

TEST_CASE("ladder: bars are as long as their numbers", "[paper][ladder]") {
    answers::Rungs rungs;
    rungs.rungs = {{62, false, false, 10, 10}, {64, false, false, 5, 5}};
    const std::string svg = paper::draw_ladder(rungs, {}, 80).svg();
    const auto width_at = [&](std::size_t from) {
        const std::size_t bar = svg.find("height=\"3\"", from);
        const std::size_t width = svg.rfind("width=\"", bar);
        return std::pair(std::strtod(svg.c_str() + width + 7, nullptr), bar);
    };
    const auto [first, after] = width_at(0);
    const auto second = width_at(after + 1).first;
    CHECK(first == Approx(2 * second).margin(0.02));
}
