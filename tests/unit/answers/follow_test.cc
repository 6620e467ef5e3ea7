#include "answers/follow.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::FollowQuestion;
using answers::Part;
using answers::Reason;

// After Lamp, a reel in G that ends on G4: one in D that begins a step higher, one in G that begins far off, one that
// begins as Lamp does, a jig, a scrap, and one in which nothing sounds.
const std::string kReelsToFollow =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB G4:|\n\n"
    "X:2\nT:Net\nR:reel\nM:4/4\nL:1/8\nK:D\n|:A2FA DAFA|BcdB AFED|A2FA DAFA|BAFE D4:|\n\n"
    "X:3\nT:Quay\nR:reel\nM:4/4\nL:1/8\nK:G\n|:g2dg Bgdg|e2ce Gece|d2Bd gdBd|cAFA G4:|\n\n"
    "X:4\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|D2ED EGAB|c2BA G4:|\n\n"
    "X:5\nT:Hop\nR:jig\nM:6/8\nL:1/8\nK:G\n|:GBd gdB|cec BdB|GBd gdB|cAF G3:|\n\n"
    "X:6\nT:Crumb\nR:reel\nM:4/4\nL:1/8\nK:D\nA2FE D4|]\n\n"
    "X:7\nT:Silence\nR:reel\nM:4/4\nL:1/8\nK:C\nz8|]\n";

FollowQuestion after(const char* first) {
    FollowQuestion question;
    question.first = first;
    question.filter.scraps = answers::Scraps::left_aside;
    return question;
}

answers::FollowAnswer following(const FollowQuestion& question) {
    return answers::answer(support::collected(kReelsToFollow), question);
}

std::vector<std::string> titles_in(const answers::FollowAnswer& answer) {
    std::vector<std::string> titles;
    for (const answers::Follower& row : answer.rows) titles.push_back(row.tune.title);
    return titles;
}

answers::Refusal none_follows(const FollowQuestion& question) {
    return support::refusal_of([&] { following(question); });
}

}  // namespace

TEST_CASE("follow: the best come first, and what does not follow is counted by its reason", "[answers][follow]") {
    const answers::FollowAnswer answer = following(after("Lamp"));
    CHECK(answer.first.title == "Lamp");
    CHECK(titles_in(answer) == std::vector<std::string>{"Net", "Quay"});
    REQUIRE(answer.rows.size() == 2);
    CHECK(answer.rows[0].follow.points > answer.rows[1].follow.points);
    CHECK(answer.rows[0].follow.key == repertoire::KeyChange::lift);
    CHECK(answer.rows[0].follow.join_semitones == 2);
    CHECK(answer.rows[1].follow.join == repertoire::Join::wide);
    CHECK(answer.matched == 2);
    CHECK(answer.other_rhythm == 1);
    CHECK(answer.same_opening == 1);
    CHECK(answer.scraps == 1);
    CHECK(answer.left_out == 0);
    CHECK(answer.why.empty());
}

TEST_CASE("follow: a scrap follows when scraps are asked for", "[answers][follow]") {
    FollowQuestion question = after("Lamp");
    question.filter.scraps = answers::Scraps::asked_for;
    const answers::FollowAnswer answer = following(question);
    CHECK(answer.scraps == 0);
    CHECK(answer.matched == 3);
}

TEST_CASE("follow: a filter leaves followers out and not the tune that was said", "[answers][follow]") {
    FollowQuestion question = after("Lamp");
    question.filter.columns.tonic = 2;
    const answers::FollowAnswer answer = following(question);
    CHECK(answer.first.title == "Lamp");
    CHECK(titles_in(answer) == std::vector<std::string>{"Net"});
    REQUIRE(answer.why.size() == 1);
    CHECK(answer.why[0].filter == "tonic");
    CHECK(answer.left_out == answer.why[0].fails);
    CHECK(answer.left_out == 5);  // all in G, and the silent one
    CHECK(answer.scraps == 1);    // is in D, and left aside
}

TEST_CASE("follow: a limit cuts the rows and not the count", "[answers][follow]") {
    FollowQuestion question = after("Lamp");
    question.limit = 1;
    const answers::FollowAnswer answer = following(question);
    CHECK(titles_in(answer) == std::vector<std::string>{"Net"});
    CHECK(answer.matched == 2);
}

TEST_CASE("follow: a few rows are told, whatever the limit and the order of the filter", "[answers][follow]") {
    std::string abc = kReelsToFollow;
    for (int number = 0; number < 12; ++number) {
        abc += "\nX:" + std::to_string(20 + number) + "\nT:More " + std::to_string(20 + number) +
               "\nR:reel\nM:4/4\nL:1/8\nK:D\n|:";
        for (int digit = 1; digit < 16; digit *= 2) abc += (number & digit) != 0 ? "AFDF E4|" : "FDFA D4|";
        abc += "ABdB AFED|BAFE D4:|\n";
    }
    const collection::Memory memory = support::collected(abc);
    FollowQuestion question = after("Lamp");
    question.filter.columns.limit = 2;
    question.filter.columns.sort = collection::Sort::file;
    const answers::FollowAnswer answer = answers::answer(memory, question);
    CHECK(answer.matched == 14);
    CHECK(answer.rows.size() == answers::kFollowersShown);
    for (std::size_t at = 1; at < answer.rows.size(); ++at)
        CHECK(answer.rows[at - 1].follow.points >= answer.rows[at].follow.points);
}

TEST_CASE("follow: a rhythm that a person said goes before R:", "[answers][follow]") {
    people::Kept kept;
    kept.rhythms[5] = {"reel", 1};
    const answers::FollowAnswer answer = answers::answer(support::collected(kReelsToFollow, kept), after("Lamp"));
    CHECK(answer.other_rhythm == 0);
    CHECK(answer.matched == 3);
}

TEST_CASE("follow: notes that the instrument has not are told", "[answers][follow]") {
    FollowQuestion question = after("Lamp");
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.filter.fits = {"C4 D4 E4 F#4 G4 A4 B4 C#5 D5"};
    const answers::FollowAnswer answer = following(question);
    CHECK(titles_in(answer) == std::vector<std::string>{"Net"});
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("follow: what is no question", "[answers][follow]") {
    const answers::Refusal silent = none_follows(after("Silence"));
    CHECK(silent.part == Part::after);
    CHECK(silent.reason == Reason::nothing_to_follow);
    CHECK(silent.what == "Silence");
    const answers::Refusal unknown = none_follows(after("Lamb"));
    CHECK(unknown.part == Part::after);
    CHECK(unknown.reason == Reason::unknown_tune);
    CHECK(unknown.others.at(0) == "Lamp (1)");
    const answers::Refusal several = none_follows(after("n"));  // Net, Lantern, Silence
    CHECK(several.part == Part::after);
    CHECK(several.reason == Reason::several_tunes);
    CHECK(several.tunes.size() == 3);
    FollowQuestion question = after("Lamp");
    question.filter.missing = answers::Lacking{1};
    CHECK(none_follows(question).reason == Reason::lacking_which);
}
