#include "answers/fit.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::FitQuestion;
using answers::Part;
using answers::Reason;

// D4 E4 F#4; D4 F4; C4 D4 E4; A3 D6; F4 G4 A4; nothing.
const std::string kFittingTunes =
    "X:1\nT:Plain\nR:jig\nM:6/8\nL:1/8\nK:D\nDEF FED|]\n\nX:2\nT:Half\nM:4/4\nL:1/8\nK:C\nDFDF D4|]\n\n"
    "X:3\nT:Low\nM:4/4\nL:1/8\nK:C\nCDED C4|]\n\nX:4\nT:Wide\nM:4/4\nL:1/8\nK:D\nA,4 d'4|]\n\n"
    "X:5\nT:Natural\nM:4/4\nL:1/8\nK:C\nFGAG F4|]\n\nX:6\nT:Silence\nM:4/4\nL:1/8\nK:C\nz8|]\n";

FitQuestion on(const char* instrument) {
    FitQuestion question;
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find(instrument)};
    return question;
}

answers::FitAnswer fit(const FitQuestion& question) {
    return answers::answer(support::collected(kFittingTunes), question);
}

answers::Refusal no_fit(const FitQuestion& question) {
    return support::refusal_of([&] { fit(question); });
}

}  // namespace

TEST_CASE("fit: a whistle, as counted by hand", "[answers][fit]") {
    const answers::FitAnswer answer = fit(on("whistle-d"));
    CHECK(answer.tunes == 5);  // what does not sound counts nowhere
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].instrument->id == "whistle-d");
    CHECK(answer.rows[0].now == 3);     // Plain, Half, Natural: D4 and what lies above it
    CHECK(answer.rows[0].easy == 1);    // F4 is a half-hole, grade 4
    CHECK(answer.rows[0].folded == 5);  // C4 and A3 an octave up
    CHECK(answer.rows[0].moved == 4);   // Low two semitones up; Wide is too wide
}

TEST_CASE("fit: a melodeon of one row, as counted by hand", "[answers][fit]") {
    const answers::FitAnswer answer = fit(on("onerow-d"));
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].now == 2);  // Plain, and Wide from A3 to D6
    CHECK(answer.rows[0].easy == 2);
    CHECK(answer.rows[0].folded == 2);  // neither C nor F natural in any octave
    CHECK(answer.rows[0].moved == 5);   // two semitones up Half, Low and Natural fit
}

TEST_CASE("fit: without an instrument every one there is, each as if asked for alone", "[answers][fit]") {
    const answers::FitAnswer answer = fit({});
    const std::vector<std::string> ids = instruments::ids();
    REQUIRE(answer.rows.size() == ids.size());
    for (std::size_t at = 0; at < ids.size(); ++at) {
        CAPTURE(ids[at]);
        CHECK(answer.rows[at].instrument.get() == instruments::find(ids[at]));
        const answers::InstrumentFit alone = fit(on(ids[at].c_str())).rows.at(0);
        CHECK(answer.rows[at].now == alone.now);
        CHECK(answer.rows[at].easy == alone.easy);
        CHECK(answer.rows[at].folded == alone.folded);
        CHECK(answer.rows[at].moved == alone.moved);
    }
}

TEST_CASE("fit: up to a grade the instrument has no harder notes", "[answers][fit]") {
    FitQuestion question = on("whistle-d");
    question.filter.grade = 2;
    const answers::FitAnswer answer = fit(question);
    CHECK(answer.rows.at(0).now == 1);
    CHECK(answer.rows.at(0).instrument->note_set() == instruments::find("whistle-d")->up_to_grade(2).note_set());
}

TEST_CASE("fit: a filter says of which tunes it is told", "[answers][fit]") {
    FitQuestion question = on("whistle-d");
    question.filter.columns.rhythm = "jig";
    CHECK(fit(question).tunes == 1);
    CHECK(fit(question).rows.at(0).moved == 1);
    question = on("whistle-d");
    question.filter.fits = {"C4 D4 E4 F4"};  // C4 is not on it
    const answers::FitAnswer answer = fit(question);
    CHECK(answer.tunes == 1);  // Half
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("fit: the only player's instrument is the one asked about", "[answers][fit]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "onerow-d", music::read_notes("D4 E4 F#4")};
    FitQuestion question;
    question.filter.players = {"Ina"};
    const answers::FitAnswer answer = answers::answer(support::collected(kFittingTunes, kept), question);
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].instrument->id == "onerow-d");
    CHECK(answer.tunes == 1);  // what fits the player's notes
}

TEST_CASE("fit: what is no question", "[answers][fit]") {
    FitQuestion question;
    question.filter.grade = 2;
    CHECK(no_fit(question).part == Part::grade);
    CHECK(no_fit(question).reason == Reason::grade_of_which);
    question = on("highland-pipes");
    question.filter.missing = answers::Lacking{1};  // an instrument asked about is not one that filters
    CHECK(no_fit(question).part == Part::missing);
    CHECK(no_fit(question).reason == Reason::lacking_which);
    question = {};
    question.filter.fits = {"Q9"};
    CHECK(no_fit(question).part == Part::fits);
}
