#include "paper/staff.h"

#include <catch2/catch.hpp>

#include "abc/read.h"
#include "instruments/known.h"
#include "support/collected.h"

namespace {

const std::string kStaffTunes =
    "X:1\nT:Odd %%Ends\nR:jig\nM:6/8\nL:1/8\nK:G\nD|G2A BAG|^c2=c d2D|E2G F_BA|B2A G2:|\n"
    "d|e2d B2A|(3GAB {c}d3 [Gd]2B-|B3 z2A|1 G,3 g'3:|2 G3 G3|]\n";

answers::TuneHandout staff_tune(const char* instrument = nullptr) {
    answers::HandoutReader reader;
    if (instrument) reader.instrument = std::make_shared<const instruments::Instrument>(*instruments::find(instrument));
    return answers::tune_handout(support::collected(kStaffTunes), "1", reader);
}

using Heard = std::vector<std::pair<int, std::string>>;  // MIDI, -1 of a rest; length

Heard heard_in(const answers::BlockPart& part) {
    Heard heard;
    for (const answers::BlockBar& bar : part.bars)
        for (const answers::Block& block : bar.blocks)
            heard.emplace_back(block.kind == answers::Block::Kind::rest ? -1 : block.midi,
                               music::to_string(block.length));
    return heard;
}

Heard read_in(const std::string& abc) {
    base::Diagnostics found;
    const auto settings = abc::read_settings(base::SourceFile("staff.abc", abc), found);
    REQUIRE(settings.size() == 1);
    Heard heard;
    const music::Melody& melody = settings.front().melody;
    for (const music::Sound& sound : melody.sounds)
        heard.emplace_back(sound.head_count == 0 ? -1 : melody.heads[sound.first_head].midi,
                           music::to_string(sound.length));
    return heard;
}

}  // namespace

TEST_CASE("staff: the text of a part reads back as the same notes and lengths", "[paper][staff]") {
    const answers::TuneHandout handout = staff_tune();
    for (const answers::BlockPart& part : handout.blocks.parts)
        for (const std::size_t across : {1U, 2U, 4U})
            CHECK(read_in(paper::staff_text(handout, part, across)) == heard_in(part));
}

TEST_CASE("staff: numbers stand under their notes, nothing of the user's text does", "[paper][staff]") {
    const answers::TuneHandout handout = staff_tune("bc21");
    const std::string text = paper::staff_text(handout, handout.blocks.parts[0], 4);
    CHECK(text.find("w: 3| 5 5 6 5 5|") != std::string::npos);
    CHECK(text.find("Odd") == std::string::npos);
    const answers::TuneHandout whistle = staff_tune("whistle-d");
    CHECK(paper::staff_text(whistle, whistle.blocks.parts[0], 4).find("w:") == std::string::npos);
}

TEST_CASE("staff: an image a part, the same bytes each time; none where one fails", "[paper][staff]") {
    const answers::TuneHandout handout = staff_tune();
    int asked = 0;
    const auto engrave = [&](const std::string&) {
        return "<svg width=\"672px\" height=\"96px\"><title>" + std::to_string(++asked) + "</title><!-- now --></svg>";
    };
    const auto pieces = paper::staves(handout, 4, engrave);
    REQUIRE(pieces.size() == 4);
    CHECK(pieces[1].height == Approx(25.4 + 2));
    CHECK(pieces[1].html.substr(pieces[1].html.find("src=")) == pieces[3].html.substr(pieces[3].html.find("src=")));
    CHECK(paper::staves(handout, 4, [](const std::string&) { return std::string(); }).empty());
    CHECK(paper::staves(handout, 4, [](const std::string&) {
              return std::string("<svg height=\"96px\"><script/></svg>");
          }).empty());
    CHECK(
        paper::staves(handout, 4, [](const std::string&) { return std::string("<svg height=\"-1\"></svg>"); }).empty());
}
