#include "paper/tune_pages.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"
#include "paper/lesson_pages.h"
#include "paper/tune_words.h"
#include "support/collected.h"

namespace {

std::string jig() {
    const std::string part = "|:G2A BAG|A2F D2D|E2G FGA|B2A G3|G2A BAG|A2F D2D|E2G FGA|A2F G3:|\n";
    return "X:4\nT:Both <b>Sides</b>\nR:jig\nM:6/8\nL:1/8\nK:G\n" + part + "|:d2e dBA|B2c d3|" +
           part.substr(part.find("E2G")) + "\n";
}

answers::TuneHandout handed_out(const std::string& abc, const char* instrument, const char* fresh = nullptr) {
    answers::HandoutReader reader;
    if (instrument) reader.instrument = std::make_shared<const instruments::Instrument>(*instruments::find(instrument));
    if (fresh) reader.fresh = fresh;
    return answers::tune_handout(support::collected(abc), "1", reader);
}

std::string body_of(const paper::TunePages& pages) { return paper::html_of(pages.pages, pages.foot); }

}  // namespace

TEST_CASE("tune pages: a jig is one page on every instrument where its lines are not too tall", "[paper][tune_pages]") {
    for (const char* id : {"bc21", "fiddle-1", "english48", "harp-c", "voice-high", "harmonica-d"}) {
        INFO(id);
        CHECK(paper::tune_pages(handed_out(jig(), id), {}).pages.size() == 1);
    }
    // A second octave makes a whistle's lines taller: the tune has a page, what helps another.
    const paper::TunePages whistle = paper::tune_pages(handed_out(jig(), "whistle-d"), {});
    REQUIRE(whistle.pages.size() == 2);
    CHECK(whistle.pages[1].pieces[0].html.find("data-note") == std::string::npos);
}

TEST_CASE("tune pages: every struck note once, in order, whatever the instrument and the names",
          "[paper][tune_pages]") {
    std::vector<std::string> first;
    for (const auto& [id, names] : {std::pair{"whistle-d", paper::Names::letters},
                                    {"bc21", paper::Names::fixed_do},
                                    {"anglo30", paper::Names::none}}) {
        const std::string body = body_of(paper::tune_pages(handed_out(jig(), id), {names, false}));
        std::vector<std::string> notes;
        for (std::size_t at = 0; (at = body.find("data-note=\"", at)) != std::string::npos; ++at)
            notes.push_back(body.substr(at + 11, body.find('"', at + 11) - at - 11));
        if (first.empty()) first = notes;
        CHECK(notes == first);
    }
    CHECK(first.front() == "G4");
}

TEST_CASE("tune pages: a title that tries to be a tag is text", "[paper][tune_pages]") {
    const std::string body = body_of(paper::tune_pages(handed_out(jig(), "bc21"), {}));
    CHECK(body.find("<b>Sides") == std::string::npos);
    CHECK(body.find("Both &lt;b&gt;Sides&lt;/b&gt;") != std::string::npos);
}

TEST_CASE("tune pages: the legend explains what stands there and no more", "[paper][tune_words]") {
    const answers::TuneHandout box = handed_out(jig(), "bc21", "F#4");
    const std::string legend = paper::legend_in_words(box, paper::Names::letters, paper::signs_used(box));
    CHECK(legend.find("Heavy frame: new, F sharp.") != std::string::npos);
    CHECK(legend.find("in a square: the outer row") != std::string::npos);
    CHECK(legend.find("press") != std::string::npos);
    CHECK(legend.find("rest") == std::string::npos);
    CHECK(legend.find("hole") == std::string::npos);
    const answers::TuneHandout whistle = handed_out(jig(), "whistle-d");
    const std::string holes = paper::legend_in_words(whistle, paper::Names::letters, paper::signs_used(whistle));
    CHECK(holes.find("Black hole: covered") != std::string::npos);
    CHECK(holes.find("Strip") == std::string::npos);
    CHECK(holes.find("Heavy frame") == std::string::npos);
    const answers::TuneHandout pipes = handed_out(jig(), "highland-pipes");
    CHECK(
        paper::legend_in_words(pipes, paper::Names::letters, paper::signs_used(pipes)).find("not on this instrument") !=
        std::string::npos);
}

TEST_CASE("tune pages: facts a player asks for first", "[paper][tune_words]") {
    CHECK(paper::facts_in_words(handed_out(jig(), nullptr), paper::Names::letters) ==
          "Jig. The foot taps 2 in a bar. Home note G. First note G.");
    const std::string guessed = "X:1\nT:Nameless\nM:6/8\nL:1/8\nK:G\n" + jig().substr(jig().find("|:"));
    CHECK(paper::facts_in_words(handed_out(guessed, nullptr), paper::Names::fixed_do) ==
          "Probably a single jig. The foot taps 2 in a bar. Home note sol. First note sol.");
}

TEST_CASE("tune pages: large print takes more pages and never a line of more than two bars", "[paper][tune_pages]") {
    const paper::TunePages large = paper::tune_pages(handed_out(jig(), "bc21"), {paper::Names::letters, true});
    CHECK(large.pages.size() > 1);
    CHECK(body_of(large).find("<title>bars 1 to 2</title>") != std::string::npos);
    CHECK(body_of(large).find("<title>bars 1 to 4</title>") == std::string::npos);
}

TEST_CASE("tune pages: hands and ears are cared for, each by its instrument", "[paper][tune_pages]") {
    CHECK(paper::caution_for(nullptr).find("a doctor") != std::string::npos);
    CHECK(paper::caution_for(instruments::find("bc21")).find("Wrist straight") != std::string::npos);
    CHECK(paper::caution_for(instruments::find("whistle-d")).find("rest your ears") != std::string::npos);
    CHECK(paper::caution_for(instruments::find("fiddle-1")).find("jaw") != std::string::npos);
    CHECK(paper::caution_for(instruments::find("harp-c")).find("both feet") != std::string::npos);
}

TEST_CASE("lesson pages: days as one writes them", "[paper][lesson_pages]") {
    CHECK(paper::day_in_words(base::read_date("2027-01-25")) == "25 January 2027");
    CHECK(paper::day_in_words(base::read_date("2027-12-01")) == "1 December 2027");
}
