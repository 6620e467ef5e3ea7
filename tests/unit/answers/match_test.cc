#include "answers/match.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::MatchQuestion;
using answers::Part;
using answers::Reason;
using tune::MatchKind;

const std::string kListedTunes =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|B2d gdB|A2F D3:|\n\n"
    "X:2\nT:The Rope Walk\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:3\nT:Tower Hill\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n\n"
    "X:4\nT:Tower Gate\nR:reel\nM:4/4\nL:1/8\nK:D\n|:ABde fedB|AFEF D4|ABde fedB|AFEF D4:|\n\n"
    "X:5\nT:Salt, Pepper\nR:polka\nM:2/4\nL:1/8\nK:D\n|:DF AF|EF AF|BA FE|D4:|\n";

MatchQuestion listing(std::initializer_list<const char*> titles) {
    MatchQuestion question;
    std::uint32_t number = 0;
    for (const char* title : titles) question.list.push_back({++number, title, true});
    return question;
}

answers::MatchAnswer matched(const MatchQuestion& question) {
    return answers::answer(support::collected(kListedTunes), question);
}

answers::Refusal no_match(const MatchQuestion& question) {
    return support::refusal_of([&] { matched(question); });
}

}  // namespace

TEST_CASE("match: every line is told as listed, and those that are not surely a tune are counted", "[answers][match]") {
    const answers::MatchAnswer answer = matched(listing({"Nowhere Fair", "lamp", "Tower", "rope walk"}));
    REQUIRE(answer.lines.size() == 4);
    CHECK(answer.lines[0].match.kind == MatchKind::unmatched);
    CHECK_FALSE(answer.lines[0].tune.has_value());
    CHECK_FALSE(answer.lines[0].is_left_out);
    REQUIRE(answer.lines[1].tune.has_value());
    CHECK(answer.lines[1].tune->id == tune::TuneId{1});
    CHECK(answer.lines[2].match.kind == MatchKind::doubtful);
    CHECK(answer.lines[2].match.candidates.size() == 2);
    CHECK_FALSE(answer.lines[2].tune.has_value());
    REQUIRE(answer.lines[3].tune.has_value());
    CHECK(answer.lines[3].tune->id == tune::TuneId{2});
    CHECK(answers::unsettled(answer) == 2);
}

TEST_CASE("match: a list keeps its name, and a line its number in it", "[answers][match]") {
    MatchQuestion question;
    question.name = "evening.txt";
    question.list = {{7, "Lamp", true}, {9, "Tower Hill", true}};
    const answers::MatchAnswer answer = matched(question);
    REQUIRE(answer.lines.size() == 2);
    CHECK(answer.lines[0].line == 7);
    CHECK(answer.lines[1].line == 9);
    CHECK(answer.name == "evening.txt");
}

TEST_CASE("match: several titles in a line are several tunes where each surely is one", "[answers][match]") {
    const answers::MatchAnswer answer = matched(listing({"Lamp, Rope Walk; Tower Gate", "Tower Hill"}));
    REQUIRE(answer.lines.size() == 4);
    CHECK(answer.lines[0].tune->id == tune::TuneId{1});
    CHECK(answer.lines[1].tune->id == tune::TuneId{2});
    CHECK(answer.lines[2].tune->id == tune::TuneId{4});
    for (const std::size_t at : {0, 1, 2}) CHECK(answer.lines[at].line == 1);
    CHECK(answer.lines[3].line == 2);
}

TEST_CASE("match: a line is told as it stands where one of its parts is not surely a tune", "[answers][match]") {
    const answers::MatchAnswer answer = matched(listing({"Lamp, Nowhere Fair", "Lamp, Tower"}));
    REQUIRE(answer.lines.size() == 2);
    CHECK(answer.lines[0].match.written == "Lamp, Nowhere Fair");
    CHECK(answer.lines[1].match.written == "Lamp, Tower");
    CHECK(answers::unsettled(answer) == 2);
}

TEST_CASE("match: a comma may stand in a title", "[answers][match]") {
    const answers::MatchAnswer answer = matched(listing({"Salt, Pepper", "Lamp, Salt, Pepper", "Rope Walk, The"}));
    REQUIRE(answer.lines.size() == 4);
    CHECK(answer.lines[0].tune->id == tune::TuneId{5});
    CHECK(answer.lines[1].tune->id == tune::TuneId{1});
    CHECK(answer.lines[2].tune->id == tune::TuneId{5});
    CHECK(answer.lines[2].match.written == "Salt, Pepper");
    CHECK(answer.lines[3].tune->id == tune::TuneId{2});
}

TEST_CASE("match: a line too long for a title is not looked into", "[answers][match]") {
    std::string line = "Lamp";
    while (line.size() <= tune::kMaxWrittenBytes) line += ", Lamp";
    const answers::MatchAnswer answer = matched(listing({line.c_str()}));
    REQUIRE(answer.lines.size() == 1);
    CHECK(answer.lines[0].match.kind == MatchKind::unmatched);
}

TEST_CASE("match: a tune that does not pass the filter is named, and said to be left out", "[answers][match]") {
    MatchQuestion question = listing({"Lamp", "Rope Walk", "Nowhere Fair"});
    question.filter.columns.rhythm = "reel";
    const answers::MatchAnswer answer = matched(question);
    REQUIRE(answer.lines.size() == 3);
    CHECK(answer.lines[0].is_left_out);
    REQUIRE(answer.lines[0].tune.has_value());
    CHECK(answer.lines[0].tune->id == tune::TuneId{1});
    CHECK_FALSE(answer.lines[1].is_left_out);
    CHECK_FALSE(answer.lines[2].is_left_out);
    REQUIRE(answer.why.size() == 1);
    CHECK(answer.why[0].filter == "rhythm");
    CHECK(answer.why[0].fails == 2);  // of the collection, not of the list
}

TEST_CASE("match: notes are told and leave no tune out", "[answers][match]") {
    MatchQuestion question = listing({"Lamp", "Rope Walk"});
    CHECK_FALSE(matched(question).have.has_value());
    question.filter.fits = {"D4 E4 F#4 A4"};
    const answers::MatchAnswer answer = matched(question);
    CHECK(answer.have == music::read_notes("D4 E4 F#4 A4"));
    CHECK_FALSE(answer.lines[0].is_left_out);
    CHECK_FALSE(answer.lines[1].is_left_out);
    CHECK(answer.why.empty());
}

TEST_CASE("match: a tune is told by the setting that comes nearest to the notes", "[answers][match]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {true, 1};
    const collection::Memory memory = support::collected(kListedTunes, kept);
    MatchQuestion question = listing({"Lamp"});
    CHECK(answers::answer(memory, question).lines.at(0).tune->own == tune::TuneId{1});
    question.filter.fits = {"D4 E4 F#4 A4"};  // all that The Rope Walk needs
    const answers::MatchAnswer answer = answers::answer(memory, question);
    CHECK(answer.lines.at(0).tune->id == tune::TuneId{1});
    CHECK(answer.lines.at(0).tune->own == tune::TuneId{2});
}

TEST_CASE("match: notes that the instrument has not are told", "[answers][match]") {
    MatchQuestion question = listing({"Lamp"});
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.filter.fits = {"C4 D4"};
    const answers::MatchAnswer answer = matched(question);
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("match: an empty list is answered with nothing", "[answers][match]") {
    const answers::MatchAnswer answer = matched(listing({}));
    CHECK(answer.lines.empty());
    CHECK(answers::unsettled(answer) == 0);
}

TEST_CASE("match: what is no question", "[answers][match]") {
    MatchQuestion question = listing({"Lamp"});
    question.filter.fits = {"Q9"};
    CHECK(no_match(question).part == Part::fits);
    CHECK(no_match(question).reason == Reason::in_words);
    question.filter.fits.clear();
    question.filter.missing = answers::Lacking{1};
    CHECK(no_match(question).part == Part::missing);
    CHECK(no_match(question).reason == Reason::lacking_which);
    question = listing({"Lamp"});
    question.filter.state = answers::StateAsked::known;
    CHECK(no_match(question).reason == Reason::no_players);
}
