#include "answers/check.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"
#include "tune/likeness.h"

namespace {

using answers::CheckQuestion;
using answers::Part;
using answers::Reason;
using tune::OddityKind;

// Lamp and Lantern are probably one tune; Rope has two bars too long; Tower has no title and a low C.
const std::string kCheckedTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n"
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n"
    "X:3\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fea|dBAF DFAd|BcdB A2FA:|"
    "|:D2FA dAFA|Bcde f2edB|cABc defg|a2ge d4:|\n\n"
    "X:4\nR:polka\nM:2/4\nL:1/8\nK:D\n|:DF AF|EF AF|=CE A=c|D4:|\n";
// The head of a file, with a meter that is none.
const std::string kHeadOfFile = "M:5/0\n\n";

answers::CheckAnswer check(const CheckQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kCheckedTunes, std::move(kept)), question);
}

answers::Refusal no_check(const CheckQuestion& question) {
    return support::refusal_of([&] { check(question); });
}

std::vector<OddityKind> kinds_in(const answers::CheckAnswer& answer) {
    std::vector<OddityKind> kinds;
    for (const answers::CheckedOddity& row : answer.rows) kinds.push_back(row.kind);
    return kinds;
}

std::int64_t count_of(const answers::CheckAnswer& answer, OddityKind kind) {
    const auto found = answer.counts.find(kind);
    return found == answer.counts.end() ? 0 : found->second;
}

CheckQuestion only(OddityKind kind) {
    CheckQuestion question;
    question.kinds = {kind};
    return question;
}

}  // namespace

TEST_CASE("check: all that looks wrong, by kind, and how much was looked at", "[answers][check]") {
    const answers::CheckAnswer answer = check({});
    CHECK(kinds_in(answer) == std::vector<OddityKind>{OddityKind::bar_length, OddityKind::bar_length, OddityKind::twin,
                                                      OddityKind::missing_field});
    CHECK(count_of(answer, OddityKind::bar_length) == 2);
    CHECK(answer.matched() == 4);
    CHECK(answer.tunes_checked == 4);
    CHECK(answer.files_checked == 1);
    const answers::CheckedOddity& bar = answer.rows.at(0);
    CHECK(bar.tune == tune::TuneId{3});
    CHECK(bar.title == "Rope");
    CHECK(bar.file == "tunes.abc");
    CHECK(bar.line == 23);
    CHECK(bar.severity == base::Severity::warning);
    CHECK(bar.message.find("9/8") != std::string::npos);
    CHECK_FALSE(bar.advice.empty());
    CHECK(bar.column < answer.rows.at(1).column);  // as they were found
    CHECK(answer.rows.at(3).title.empty());
    CHECK(answer.rows.at(3).tune == tune::TuneId{4});
}

TEST_CASE("check: only the kinds asked for are told and counted", "[answers][check]") {
    const answers::CheckAnswer answer = check(only(OddityKind::twin));
    CHECK(kinds_in(answer) == std::vector<OddityKind>{OddityKind::twin});
    CHECK(answer.matched() == 1);
    CHECK(answer.tunes_checked == 4);
    CheckQuestion question;
    question.kinds = {OddityKind::missing_field, OddityKind::bar_length};
    CHECK(kinds_in(check(question)) ==
          std::vector<OddityKind>{OddityKind::bar_length, OddityKind::bar_length, OddityKind::missing_field});
    question.kinds.emplace();
    CHECK(check(question).matched() == 0);
}

TEST_CASE("check: nothing slighter than asked for is told or counted", "[answers][check]") {
    CheckQuestion question;
    question.least = base::Severity::remark;
    CHECK(check(question).matched() == 4);
    question.least = base::Severity::warning;
    CHECK(check(question).matched() == 2);
    CHECK(kinds_in(check(question)) == std::vector<OddityKind>{OddityKind::bar_length, OddityKind::bar_length});
    question.least = base::Severity::error;
    CHECK(check(question).matched() == 0);
}

TEST_CASE("check: a limit is one of each kind told, and all are counted", "[answers][check]") {
    CheckQuestion question;
    question.limit = 1;
    const answers::CheckAnswer answer = check(question);
    CHECK(kinds_in(answer) ==
          std::vector<OddityKind>{OddityKind::bar_length, OddityKind::twin, OddityKind::missing_field});
    CHECK(count_of(answer, OddityKind::bar_length) == 2);
    CHECK(answer.matched() == 4);
    question.limit = 0;
    CHECK(check(question).rows.empty());
    CHECK(check(question).matched() == 4);
}

TEST_CASE("check: a twin is told of the later of the two, with how to say what it is", "[answers][check]") {
    const answers::CheckAnswer answer = check(only(OddityKind::twin));
    const answers::CheckedOddity& row = answer.rows.at(0);
    CHECK(row.title == "Lantern");
    CHECK(row.line == 9);
    CHECK(row.severity == base::Severity::remark);
    CHECK(row.message.empty());
    CHECK(row.advice == tune::oddity_advice(OddityKind::twin));
    REQUIRE(row.twin.has_value());
    CHECK(row.twin->record.titles.front() == "Lamp");
    CHECK(row.twin->one == tune::TuneId{1});
    CHECK(row.twin->other == tune::TuneId{2});
    CHECK(row.twin->likeness >= tune::kProbableKin);
}

TEST_CASE("check: where only the earlier of two twins was asked about it is told of that one", "[answers][check]") {
    CheckQuestion question = only(OddityKind::twin);
    question.filter.columns.title = "lamp";
    const answers::CheckAnswer answer = check(question);
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].title == "Lamp");
    CHECK(answer.rows[0].twin->record.titles.front() == "Lantern");
    CHECK(answer.rows[0].twin->one == tune::TuneId{1});
    question.filter.columns.title = "rope";
    CHECK(check(question).rows.empty());
}

TEST_CASE("check: twins of which a person has spoken are not told", "[answers][check]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {false, 1};
    CHECK(check(only(OddityKind::twin), kept).rows.empty());
}

TEST_CASE("check: notes out of reach are told where notes were said, with how to spell them", "[answers][check]") {
    CHECK(count_of(check({}), OddityKind::out_of_reach) == 0);
    CheckQuestion question = only(OddityKind::out_of_reach);
    question.reach = "D4 E4 F#4 G4 A4 B4 C#5 D5 E5 F#5 G5";
    const answers::CheckAnswer answer = check(question);
    REQUIRE(answer.rows.size() == 4);
    CHECK(answer.rows[0].title == "Lamp");  // in the order of the file
    CHECK(answer.rows[1].title == "Lantern");
    CHECK(answer.rows[2].title == "Rope");
    CHECK(answer.rows[0].outside == music::read_notes("C5"));
    CHECK(answer.rows[2].outside == music::read_notes("A5"));
    CHECK(answer.rows[3].outside == music::read_notes("C4 C5"));
    CHECK(answer.rows[0].fifths == 1);
    CHECK(answer.rows[2].fifths == 2);
    CHECK(answer.rows[0].severity == base::Severity::remark);
}

TEST_CASE("check: out of reach is what the instrument has not, and the instrument leaves no tune out",
          "[answers][check]") {
    CheckQuestion question;
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    const answers::CheckAnswer answer = check(question);
    CHECK(count_of(answer, OddityKind::out_of_reach) == 1);
    CHECK(answer.rows.at(3).kind == OddityKind::out_of_reach);
    CHECK(answer.rows.at(3).outside == music::read_notes("C4"));
    CHECK(answer.tunes_checked == 4);
    CHECK(answer.files_checked == 1);
    question.reach = "D4 E4";  // goes before the instrument's
    CHECK(count_of(check(question), OddityKind::out_of_reach) == 4);
}

TEST_CASE("check: notes out of reach are told in the order of the file, of a tune by the setting that comes nearest",
          "[answers][check]") {
    const std::string low =
        "X:1\nT:Zinc\nM:4/4\nL:1/8\nK:C\nCDEC D4|]\n\nX:2\nT:Ash\nM:4/4\nL:1/8\nK:C\nCEGE C4|]\n\n"
        "X:3\nT:Moss\nM:4/4\nL:1/8\nK:C\nDEGE D4|]\n";
    CheckQuestion question = only(OddityKind::out_of_reach);
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    const answers::CheckAnswer each = answers::answer(support::collected(low), question);
    REQUIRE(each.rows.size() == 2);
    CHECK(each.rows[0].title == "Zinc");
    CHECK(each.rows[1].title == "Ash");
    people::Kept kept;
    kept.verdicts[{2, 3}] = {true, 1};  // Moss fits
    const answers::CheckAnswer joined = answers::answer(support::collected(low, kept), question);
    REQUIRE(joined.rows.size() == 1);
    CHECK(joined.rows[0].title == "Zinc");
    CHECK(joined.tunes_checked == 2);
    CHECK(joined.settings_checked == 3);
}

TEST_CASE("check: what belongs to no tune is told where no tune was asked for", "[answers][check]") {
    const collection::Memory memory = support::collected(kHeadOfFile + kCheckedTunes);
    CheckQuestion question;
    const answers::CheckAnswer all = answers::answer(memory, question);
    const auto stray = std::find_if(all.rows.begin(), all.rows.end(),
                                    [](const answers::CheckedOddity& row) { return !row.tune.has_value(); });
    REQUIRE(stray != all.rows.end());
    CHECK(stray->kind == OddityKind::missing_field);
    CHECK(stray->file == "tunes.abc");
    CHECK(stray->line == 1);
    CHECK(stray->title.empty());
    CHECK(all.matched() == 5);
    question.filter.columns.rhythm = "reel";
    const answers::CheckAnswer reels = answers::answer(memory, question);
    CHECK(kinds_in(reels) == std::vector<OddityKind>{OddityKind::bar_length, OddityKind::bar_length, OddityKind::twin});
    CHECK(reels.tunes_checked == 3);
    CHECK_FALSE(reels.files_checked.has_value());
}

TEST_CASE("check: notes that the instrument has not are told", "[answers][check]") {
    CheckQuestion question;
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.reach = "C4 D4 E4";
    const answers::CheckAnswer answer = check(question);
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].part == Part::reach);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("check: what is no question", "[answers][check]") {
    const answers::Refusal outside_which = no_check(only(OddityKind::out_of_reach));
    CHECK(outside_which.part == Part::reach);
    CHECK(outside_which.reason == Reason::outside_which);
    CheckQuestion question;
    question.reach = "Q9";
    CHECK(no_check(question).part == Part::reach);
    CHECK(no_check(question).reason == Reason::in_words);
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.reach = "C4";
    CHECK(no_check(question).part == Part::reach);
    CHECK(no_check(question).reason == Reason::none_on_instrument);
    question = {};
    question.filter.missing = answers::Lacking{1};
    CHECK(no_check(question).reason == Reason::lacking_which);
    question.filter.missing.reset();
    question.filter.grade = 1;
    CHECK(no_check(question).reason == Reason::grade_of_which);
}

TEST_CASE("check: a player is told what the player's instrument has not, whatever notes the player has",
          "[answers][check]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4")};
    CheckQuestion question = only(OddityKind::out_of_reach);
    question.filter.players = {"Ina"};
    const answers::CheckAnswer answer = check(question, kept);
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].outside == music::read_notes("C4"));
    kept.players[2] = {"Uli", "uli", std::nullopt, music::read_notes("D4 E4")};
    question.filter.players = {"Ina", "Uli"};
    CHECK(check(question, kept).rows.size() == 1);  // on everyone's instrument
}
