#include "paper/block_lines.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <map>

#include "answers/tune_handout.h"
#include "instruments/known.h"
#include "music/note_expression.h"
#include "support/collected.h"

namespace {

const std::string kPaperTunes =
    "X:1\nT:Lead In\nR:jig\nM:6/8\nL:1/8\nK:G\nD|G2A BAG|A2F D2D|E2G FGA|B2A G2:|\n"
    "d|e2d B2A|(3GAB {c}d3 [Gd]2B-|B3 z2A|1 G3 G2:|2 G3 G2|]\n\n"
    "X:2\nT:Crowded\nR:reel\nM:4/4\nL:1/16\nK:D\n|:F4 ^G^G^G^G ^G4 ^G4|F16|F16|F16:|\n\n"
    "X:3\nT:Straight\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DEDE DEDE|DEDE DEDE|DEDE DEDE|DEDE DEDE:|\n";

answers::TuneHandout paper_tune(const char* which, const char* instrument = nullptr, const char* fresh = nullptr) {
    answers::HandoutReader reader;
    if (instrument) reader.instrument = std::make_shared<const instruments::Instrument>(*instruments::find(instrument));
    if (fresh) reader.fresh = fresh;
    return answers::tune_handout(support::collected(kPaperTunes), which, reader);
}

paper::BlockStyle plain_style(const answers::TuneHandout& handout) {
    paper::BlockStyle style;
    style.fifths = handout.fifths;
    style.taps = handout.taps;
    style.fresh = handout.fresh;
    style.instrument = handout.instrument.get();
    if (handout.instrument) style.signs = paper::layout_of(*handout.instrument);
    return style;
}

// x and width of every block frame that carries the attribute, in order.
std::vector<std::pair<double, double>> blocks_in(const std::string& svg) {
    std::vector<std::pair<double, double>> blocks;
    for (std::size_t at = 0; (at = svg.find("<g data-", at)) != std::string::npos; ++at) {
        const std::size_t rect = svg.find("<rect x=\"", at);
        const double x = std::strtod(svg.c_str() + rect + 9, nullptr);
        const std::size_t width = svg.find("width=\"", rect);
        blocks.emplace_back(x, std::strtod(svg.c_str() + width + 7, nullptr));
    }
    return blocks;
}

}  // namespace

TEST_CASE("block lines: bars in their order, the lead-in before them, endings in words", "[paper][block_lines]") {
    const auto parts = paper::cut(paper_tune("lead in").blocks, 4);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].heading == "Part A");
    CHECK(parts[0].how_often == "play it twice");
    CHECK(parts[1].how_often == "play it twice, then go back to the top");
    REQUIRE(parts[0].lines.size() == 1);
    CHECK(parts[0].lines[0].lead_in);
    CHECK(parts[0].lines[0].bars.size() == 4);
    REQUIRE(parts[1].lines.size() == 2);
    CHECK(parts[1].lines[0].labels[3] == "first time, then back to bar 5");
    CHECK(parts[1].lines[1].labels[0] == "second time, the end");
    CHECK(parts[0].lines[0].spare == Approx(0.125));
}

TEST_CASE("block lines: width is time, one scale for the sheet, a bar as wide as its blocks", "[paper][block_lines]") {
    const answers::TuneHandout handout = paper_tune("lead in");
    const auto parts = paper::cut(handout.blocks, 4);
    const paper::BlockStyle style = paper::fitted(plain_style(handout), parts, 178);
    for (const paper::PartLines& part : parts)
        for (const paper::BlockLine& line : part.lines) {
            const std::string svg = paper::draw(line, style, 178).svg(paper::height_of(style));
            const auto blocks = blocks_in(svg);
            std::vector<music::Duration> lengths;
            const auto take = [&](const answers::BlockBar& bar) {
                for (const answers::Block& block : bar.blocks)
                    if (block.kind != answers::Block::Kind::rest) lengths.push_back(block.length);
            };
            if (line.lead_in) take(*line.lead_in);
            for (const answers::BlockBar& bar : line.bars) take(bar);
            REQUIRE(blocks.size() == lengths.size());
            for (std::size_t at = 0; at < blocks.size(); ++at) {
                CHECK(std::abs(blocks[at].second - paper::whole_notes(lengths[at]) * style.whole_note) < 0.02);
                CHECK(blocks[at].first + blocks[at].second < 178.01);
            }
        }
}

TEST_CASE("block lines: as many bars a line as leave each name room", "[paper][block_lines]") {
    const answers::TuneHandout jig = paper_tune("lead in");
    CHECK(paper::bars_across(jig.blocks, plain_style(jig), 178) == 4);
    const answers::TuneHandout reel = paper_tune("straight");
    CHECK(paper::bars_across(reel.blocks, plain_style(reel), 178) == 4);
    const answers::TuneHandout crowded = paper_tune("crowded");
    CHECK(paper::bars_across(crowded.blocks, plain_style(crowded), 178) < 4);
    paper::BlockStyle with_do = plain_style(reel);
    with_do.names = paper::Names::fixed_do;
    with_do.sizes.small_em = 5.8;
    CHECK(paper::bars_across(reel.blocks, with_do, 120) < 4);
}

TEST_CASE("block line: new notes are framed and said, and each line says itself in words", "[paper][block_line]") {
    const answers::TuneHandout handout = paper_tune("straight", "bc21", "E4");
    const auto parts = paper::cut(handout.blocks, 4);
    const paper::BlockStyle style = paper::fitted(plain_style(handout), parts, 178);
    const std::string svg = paper::draw(parts[0].lines[0], style, 178).svg(paper::height_of(style));
    std::size_t frames = 0;
    for (std::size_t at = 0; (at = svg.find("stroke-width=\"1.1\"", at)) != std::string::npos; ++at) ++frames;
    CHECK(frames == 16);
    CHECK(svg.find(">new</text>") != std::string::npos);
    CHECK(svg.find("<title>bars 1 to 4</title>") != std::string::npos);
    CHECK(svg.find("bar 1: D, E (new), D, E (new)") != std::string::npos);
    CHECK(svg.find("data-note=\"D4\"") != std::string::npos);
}

TEST_CASE("block line: every change of the bellows is an edge of the strip", "[paper][strip]") {
    const answers::TuneHandout handout = paper_tune("straight", "bc21");
    const auto parts = paper::cut(handout.blocks, 4);
    const paper::BlockStyle style = paper::fitted(plain_style(handout), parts, 178);
    int changes = 0;
    const instruments::Way* before = nullptr;
    for (const answers::BlockBar& bar : parts[0].lines[0].bars)
        for (const answers::Block& block : bar.blocks) {
            if (before && before->direction != block.way.direction) ++changes;
            before = &block.way;
        }
    const std::string svg = paper::draw(parts[0].lines[0], style, 178).svg(paper::height_of(style));
    // A run is a filled or an open strip of one height.
    const std::string height = "height=\"" + paper::number(style.sizes.strip_row - 0.6) + "\"";
    int runs = 0;
    for (std::size_t at = 0; (at = svg.find(height, at)) != std::string::npos; ++at) ++runs;
    CHECK(runs == changes + 1);
}

TEST_CASE("block line: signs of drills carry no note of the tune", "[paper][block_line]") {
    const answers::TuneHandout handout = paper_tune("straight");
    paper::BlockStyle style = plain_style(handout);
    style.is_of_tune = false;
    const auto parts = paper::cut(handout.blocks, 4);
    style = paper::fitted(style, parts, 178);
    CHECK(paper::draw(parts[0].lines[0], style, 178).svg(30).find("data-note") == std::string::npos);
}
