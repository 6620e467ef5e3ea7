#include "answers/together.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Part;
using answers::Reason;
using answers::TogetherQuestion;

// From D4 E4: nothing more, two with G4, one with F#4, one with both, one with A4, and one in which nothing sounds.
const std::string kSharedTunes =
    "X:1\nT:Both\nR:jig\nM:6/8\nL:1/8\nK:C\nDED EDE|]\n\n"
    "X:2\nT:Gate\nR:reel\nM:4/4\nL:1/8\nK:C\nDEGE DEGE|]\n\nX:3\nT:Gull\nR:reel\nM:4/4\nL:1/8\nK:C\nGEDE G4|]\n\n"
    "X:4\nT:Fern\nR:jig\nM:6/8\nL:1/8\nK:D\nDEF FED|]\n\nX:5\nT:Four\nR:reel\nM:4/4\nL:1/8\nK:D\nDEFG GFED|]\n\n"
    "X:6\nT:Ash\nR:reel\nM:4/4\nL:1/8\nK:C\nDEAE D4|]\n\nX:7\nT:Silence\nM:4/4\nL:1/8\nK:C\nz8|]\n";

TogetherQuestion two_of_them() {
    TogetherQuestion question;
    question.filter.fits = {"Ina=D4 E4 G4", "D4 E4 F#4"};
    return question;
}

answers::TogetherAnswer together(const TogetherQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kSharedTunes, std::move(kept)), question);
}

answers::Refusal not_together(const TogetherQuestion& question, people::Kept kept = {}) {
    return support::refusal_of([&] { together(question, std::move(kept)); });
}

std::vector<int> midi_of(const planner::Together& found) {
    std::vector<int> notes;
    for (const planner::SharedNotes& shared : found.notes) notes.push_back(shared.notes.lowest());
    return notes;
}

}  // namespace

TEST_CASE("together: what all can play now, and what each can alone", "[answers][together]") {
    const answers::TogetherAnswer answer = together(two_of_them());
    CHECK(answer.tunes == 6);  // all that sound
    CHECK(answer.found.common == music::read_notes("D4 E4"));
    CHECK(answer.found.now == std::vector<tune::TuneId>{{1}});
    CHECK(answer.found.own == std::vector<std::int64_t>{3, 2});
    CHECK(answer.found.out_of_reach == 0);
}

TEST_CASE("together: a note is for those who have it not; fewest learners first, then most tunes",
          "[answers][together]") {
    const planner::Together found = together(two_of_them()).found;
    REQUIRE(midi_of(found) == std::vector<int>{67, 66, 69});  // G4, F#4, A4
    CHECK(found.notes[0].learners == std::vector<std::size_t>{1});
    CHECK(found.notes[0].opens == std::vector<tune::TuneId>{{2}, {3}});
    CHECK(found.notes[1].learners == std::vector<std::size_t>{0});
    CHECK(found.notes[1].opens == std::vector<tune::TuneId>{{4}});
    CHECK(found.notes[2].learners == std::vector<std::size_t>{0, 1});
    CHECK(found.notes[2].opens == std::vector<tune::TuneId>{{6}});
}

TEST_CASE("together: every tune found has its title", "[answers][together]") {
    const answers::TogetherAnswer answer = together(two_of_them());
    CHECK(answer.titles ==
          std::map<tune::TuneId, std::string>{
              {{1}, "Both"}, {{2}, "Gate"}, {{3}, "Gull"}, {{4}, "Fern"}, {{5}, "Four"}, {{6}, "Ash"}});
    const collection::Memory untitled = support::collected("X:1\nM:4/4\nL:1/8\nK:C\nDEDE D4|]\n");
    CHECK(answers::answer(untitled, two_of_them()).titles.at({1}) == "(no title)");
}

TEST_CASE("together: whoever has no name is called by the place", "[answers][together]") {
    TogetherQuestion question = two_of_them();
    question.filter.fits.push_back("E4 D4");
    const answers::TogetherAnswer answer = together(question);
    REQUIRE(answer.members.size() == 3);
    CHECK(answer.members[0].name == "Ina");
    CHECK(answer.members[1].name == "player 2");
    CHECK(answer.members[2].name == "player 3");
}

TEST_CASE("together: players of the collection come behind those who are known by their notes", "[answers][together]") {
    people::Kept kept;
    kept.players[1] = {"Uli", "uli", "whistle-d", music::read_notes("D4 E4 F#4")};
    TogetherQuestion question;
    question.filter.players = {"uli"};
    question.filter.fits = {"D4 E4 G4"};
    const answers::TogetherAnswer answer = together(question, kept);
    REQUIRE(answer.members.size() == 2);
    CHECK(answer.members[0].name == "player 1");
    CHECK(answer.members[1].name == "Uli");
    CHECK(answer.members[1].reach == instruments::find("whistle-d")->note_set());
    CHECK(midi_of(answer.found) == std::vector<int>{67, 66, 69});
}

TEST_CASE("together: a note that somebody's instrument has not is proposed to nobody", "[answers][together]") {
    const collection::Memory memory = support::collected(kSharedTunes + "\nX:8\nT:Low\nM:4/4\nL:1/8\nK:C\nDECE D4|]\n");
    TogetherQuestion question = two_of_them();
    CHECK(midi_of(answers::answer(memory, question).found) == std::vector<int>{67, 66, 60, 69});
    question.filter.fits[1] = "Uli on whistle-d=D4 E4 F#4";
    const planner::Together found = answers::answer(memory, question).found;
    CHECK(midi_of(found) == std::vector<int>{67, 66, 69});
    CHECK(found.out_of_reach == 1);
}

TEST_CASE("together: a filter of columns says which tunes there are", "[answers][together]") {
    TogetherQuestion question = two_of_them();
    question.filter.columns.rhythm = "reel";
    const answers::TogetherAnswer answer = together(question);
    CHECK(answer.tunes == 4);
    CHECK(answer.found.now.empty());
    CHECK(midi_of(answer.found) == std::vector<int>{67, 69});
}

TEST_CASE("together: a tune is played in the setting nearest to what all have", "[answers][together]") {
    people::Kept kept;
    kept.verdicts[{5, 6}] = {true, 1};  // Four lacks two notes, Ash one
    const answers::TogetherAnswer answer = together(two_of_them(), kept);
    CHECK(answer.tunes == 5);
    REQUIRE(answer.found.notes.size() == 3);
    CHECK(answer.found.notes[2].notes == music::read_notes("A4"));
    CHECK(answer.found.notes[2].opens == std::vector<tune::TuneId>{{5}});
    CHECK(answer.titles.at({5}) == "Ash");
}

TEST_CASE("together: settings count one by one under their own ids where that is asked", "[answers][together]") {
    people::Kept kept;
    kept.verdicts[{1, 4}] = {true, 1};
    TogetherQuestion question = two_of_them();
    question.filter.columns.settings = true;
    const answers::TogetherAnswer answer = together(question, kept);
    CHECK(answer.tunes == 6);
    CHECK(answer.found.now == std::vector<tune::TuneId>{{1}});
    CHECK(answer.titles.at({1}) == "Both");
    CHECK(answer.titles.at({4}) == "Fern");
}

TEST_CASE("together: notes that an instrument has not are told", "[answers][together]") {
    TogetherQuestion question = two_of_them();
    question.filter.fits[1] = "Uli on whistle-d=C4 D4 E4";
    const answers::TogetherAnswer answer = together(question);
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].part == Part::fits);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
    CHECK(answer.members[1].have == music::read_notes("D4 E4"));
}

TEST_CASE("together: one alone, or nobody, is no question", "[answers][together]") {
    TogetherQuestion question;
    CHECK(not_together(question).part == Part::players);
    CHECK(not_together(question).reason == Reason::two_players);
    question.filter.fits = {"Ina=D4 E4"};
    CHECK(not_together(question).part == Part::players);
    CHECK(not_together(question).reason == Reason::two_players);
    people::Kept kept;
    kept.players[1] = {"Uli", "uli", std::nullopt, std::nullopt};
    question.filter.fits.clear();
    question.filter.players = {"Uli", "Uli"};
    const answers::Refusal silent = not_together(question, kept);
    CHECK(silent.reason == Reason::no_notes_yet);
    CHECK(silent.what == "Uli");
    question.filter.players = {"Una"};
    CHECK(not_together(question, kept).reason == Reason::unknown_player);
    question.filter.players.clear();
    question.filter.fits = {"Ina=D4", "Uli on zither"};
    CHECK(not_together(question).reason == Reason::unknown_instrument);
    question.filter.fits = {"Ina=D4", "Q9"};
    CHECK(not_together(question).part == Part::fits);
}

TEST_CASE("together: of several settings one that all can play some day is looked at", "[answers][together]") {
    const collection::Memory memory = support::collected(
        "X:1\nT:Low\nR:reel\nM:4/4\nL:1/8\nK:C\nDEB,E DEGE|\n\nX:2\nT:Low\nR:reel\nM:4/4\nL:1/8\nK:C\nDEBE DEGE|]\n",
        [] {
            people::Kept kept;
            kept.verdicts[{1, 2}] = {true, 1};
            return kept;
        }());
    TogetherQuestion question;
    question.filter.fits = {"Ina on whistle-d=D4 E4", "Olli on whistle-d=D4 E4"};
    const answers::TogetherAnswer answer = answers::answer(memory, question);
    CHECK(answer.tunes == 1);
    CHECK(answer.found.out_of_reach == 0);  // the first setting has a B3, which no such whistle has
    REQUIRE(answer.found.groups.size() == 1);
    CHECK(answer.found.groups[0].notes == music::read_notes("G4 B4"));
}
