#include "answers/evening.h"

#include <catch2/catch.hpp>
#include <set>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::EveningQuestion;
using answers::Part;
using answers::Reason;

// Lamp and Lantern are probably one tune; Rope and Tower are reels too, Hop and Skip jigs, Mist an air, Crumb a scrap.
const std::string kEveningLamp =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n";
const std::string kEveningTunes =
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n"
    "X:3\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fe|dBAF DFAd|BcdB A2FA:|"
    "|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n\n"
    "X:4\nT:Tower\nR:reel\nM:4/4\nL:1/8\nK:A\n|:A2cA eAcA|d2fd c2ec|BGEG Bcde|fedc A4:|"
    "|:a2ga fece|d2fd ecAc|BcdB ceAc|BGEG A4:|\n\n"
    "X:5\nT:Hop\nR:jig\nM:6/8\nL:1/8\nK:G\n|:GBd gdB|cec BdB|AFA DFA|cAF G3:|"
    "|:g2d BdB|c2e dBG|AFD dcA|BGF G3:|\n\n"
    "X:6\nT:Skip\nR:jig\nM:6/8\nL:1/8\nK:D\n|:A2F DFA|B2d AFD|E2G FAd|cBA d3:|"
    "|:f2d AdA|g2e cec|dcB AFD|EFE D3:|\n\n"
    "X:7\nT:Mist\nR:air\nM:3/4\nL:1/8\nK:G\n|:G2 A2 B2|d4 B2|c2 A2 F2|G6:||:B2 c2 d2|e4 c2|d2 B2 A2|G6:|\n\n"
    "X:8\nT:Crumb\nR:reel\nM:4/4\nL:1/8\nK:D\nA2FE D4|]\n";

EveningQuestion some_minutes(int minutes) {
    EveningQuestion question;
    question.goal.minutes = minutes;
    question.goal.in_set = 2;
    question.filter.scraps = answers::Scraps::left_aside;
    return question;
}

answers::EveningAnswer evening(const EveningQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kEveningLamp + kEveningTunes, std::move(kept)), question);
}

std::set<std::string> titles_at_hand(const answers::EveningAnswer& answer) {
    std::set<std::string> titles;
    for (const repertoire::TuneShape& tune : answer.tunes) titles.insert(tune.title);
    return titles;
}

answers::Refusal no_evening(const EveningQuestion& question) {
    return support::refusal_of([&] { evening(question); });
}

}  // namespace

TEST_CASE("evening: sets of tunes that are at hand, as long as they say", "[answers][evening]") {
    const answers::EveningAnswer answer = evening(some_minutes(9));
    CHECK(answer.goal.minutes == 9);
    CHECK(answer.goal.in_set == 2);
    REQUIRE(answer.evening.sets.size() == 2);
    int seconds = 0;
    std::set<std::string> played;
    for (const repertoire::EveningSet& set : answer.evening.sets)
        for (const repertoire::EveningTune& each : set.tunes) {
            const repertoire::TuneShape& tune = answer.tunes.at(each.tune);
            CHECK(tune.rhythm == set.rhythm);
            CHECK(played.insert(tune.title).second);  // none twice
            seconds += each.seconds;
        }
    CHECK(seconds == answer.evening.seconds);
    CHECK(played.count("Hop") + played.count("Skip") == 2);
    CHECK(answer.evening.without_pace == 1);  // the air
}

TEST_CASE("evening: of tunes that are probably one the first by title stays", "[answers][evening]") {
    const answers::EveningAnswer answer = evening(some_minutes(30));
    CHECK(answer.doubles == 1);
    CHECK(titles_at_hand(answer) == std::set<std::string>{"Lamp", "Rope", "Tower", "Hop", "Skip", "Mist"});
}

TEST_CASE("evening: tunes of which a person said that they are two both stay", "[answers][evening]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {false, 1};
    const answers::EveningAnswer answer = evening(some_minutes(30), kept);
    CHECK(answer.doubles == 0);
    CHECK(titles_at_hand(answer).contains("Lantern"));
}

TEST_CASE("evening: a tune that cannot be in the list takes no place of its double", "[answers][evening]") {
    std::string as_air = kEveningLamp;
    as_air.replace(as_air.find("reel"), 4, "air");
    const answers::EveningAnswer answer = answers::answer(support::collected(as_air + kEveningTunes), some_minutes(30));
    CHECK(answer.doubles == 0);
    CHECK(titles_at_hand(answer).contains("Lantern"));
}

TEST_CASE("evening: for dancing a double of odd length leaves the place to the one that can be danced",
          "[answers][evening]") {
    std::string odd = kEveningLamp;
    odd.replace(odd.find("c2ec B2dB|A2GF"), 14, "c2ec B2dB|c2ec B2dB|A2GF");
    const collection::Memory memory = support::collected(odd + kEveningTunes);
    EveningQuestion question = some_minutes(30);
    const answers::EveningAnswer played = answers::answer(memory, question);
    CHECK(played.doubles == 1);
    CHECK_FALSE(titles_at_hand(played).contains("Lantern"));
    question.goal.for_dance = true;
    const answers::EveningAnswer danced = answers::answer(memory, question);
    CHECK(danced.doubles == 0);
    CHECK(titles_at_hand(danced).contains("Lantern"));
    CHECK(danced.evening.odd_length == 1);
}

TEST_CASE("evening: scraps are left aside and counted apart from what a filter leaves out", "[answers][evening]") {
    EveningQuestion question = some_minutes(30);
    CHECK(evening(question).scraps == 1);
    CHECK(evening(question).left_out == 0);
    CHECK(evening(question).why.empty());
    question.filter.scraps = answers::Scraps::asked_for;
    CHECK(evening(question).scraps == 0);
    CHECK(titles_at_hand(evening(question)).contains("Crumb"));
    question = some_minutes(30);
    question.filter.columns.rhythm = "jig";
    const answers::EveningAnswer jigs = evening(question);
    CHECK(titles_at_hand(jigs) == std::set<std::string>{"Hop", "Skip"});
    CHECK(jigs.left_out == 6);  // the scrap among them: it would not pass
    CHECK(jigs.scraps == 0);
    CHECK(jigs.doubles == 0);
    REQUIRE(jigs.why.size() == 1);
    CHECK(jigs.why[0].filter == "rhythm");
    CHECK(jigs.why[0].fails == 6);
}

TEST_CASE("evening: a rhythm that a person said goes before R:", "[answers][evening]") {
    people::Kept kept;
    kept.rhythms[7] = {"waltz", 1};
    CHECK(evening(some_minutes(30), kept).evening.without_pace == 0);
}

TEST_CASE("evening: who asks for jigs is not given what the meter makes a reel of", "[answers][evening]") {
    const collection::Memory memory = support::collected(
        kEveningTunes +
        "X:9\nT:Told Wrong\nR:jig\nM:4/4\nL:1/8\nK:C\n|:cege c2GE|FAcA d2cA|GBdB gdBG|c2ec c4:||:a2fa gece|"
        "f2df ecGc|d2Bd G2AB|c2Gc E4:|\n");
    EveningQuestion question = some_minutes(30);
    const auto is_there = [](const answers::EveningAnswer& answer) {
        return titles_at_hand(answer).contains("Told Wrong");
    };
    CHECK(is_there(answers::answer(memory, question)));
    question.filter.columns.rhythm = "jig";
    const answers::EveningAnswer jigs = answers::answer(memory, question);
    CHECK_FALSE(is_there(jigs));
    CHECK(jigs.other_meter == 1);
}

TEST_CASE("evening: a tune that shall not be played is not", "[answers][evening]") {
    EveningQuestion question = some_minutes(30);
    question.without = {"Tower", "5"};
    const answers::EveningAnswer answer = evening(question);
    CHECK(titles_at_hand(answer) == std::set<std::string>{"Lamp", "Rope", "Skip", "Mist"});
    CHECK(answer.unwanted == 2);
    question.without = {"no such tune"};
    CHECK(no_evening(question).part == Part::without);
}

TEST_CASE("evening: parts that old books print once are played twice", "[answers][evening]") {
    const std::string once =
        "X:1\nT:Printed Once\nR:reel\nM:4/4\nL:1/8\nK:G\n"
        "G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF|G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB G4||"
        "g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4|g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G2Bd|]\n\n";
    std::string repeated = once;
    repeated.replace(repeated.find("||"), 2, ":|");
    EveningQuestion question = some_minutes(30);
    const auto first_of = [&](const std::string& abc) {
        return answers::answer(support::collected(abc), question).tunes.front();
    };
    const repertoire::TuneShape printed_once = first_of(once);
    CHECK(printed_once.bars == 16);
    CHECK(printed_once.is_printed_once);
    CHECK_FALSE(first_of(repeated).is_printed_once);
    CHECK(*repertoire::seconds_of(printed_once, question.goal) == 165);  // 3 times 32 bars of 2 beats, 70 a minute
    question.goal.as_printed = true;
    CHECK(*repertoire::seconds_of(printed_once, question.goal) == 82);
}

TEST_CASE("evening: without a tune there is no set", "[answers][evening]") {
    EveningQuestion question = some_minutes(30);
    question.filter.columns.rhythm = "mazurka";
    const answers::EveningAnswer answer = evening(question);
    CHECK(answer.evening.sets.empty());
    CHECK(answer.tunes.empty());
    CHECK(answer.doubles == 0);
    CHECK_FALSE(answer.evening.is_filled);
}

TEST_CASE("evening: notes that the instrument has not are told", "[answers][evening]") {
    EveningQuestion question = some_minutes(30);
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.filter.fits = {"C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5"};
    const answers::EveningAnswer answer = evening(question);
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
    CHECK_FALSE(titles_at_hand(answer).contains("Tower"));  // has a G#4
    CHECK(titles_at_hand(answer).contains("Hop"));
}

TEST_CASE("evening: what is no question", "[answers][evening]") {
    EveningQuestion question = some_minutes(30);
    question.filter.missing = answers::Lacking{1};
    CHECK(no_evening(question).part == Part::missing);
    CHECK(no_evening(question).reason == Reason::lacking_which);
    question.filter.missing.reset();
    question.filter.fits = {"D4", "E4"};
    CHECK(no_evening(question).part == Part::fits);
    CHECK(no_evening(question).reason == Reason::no_note_in_common);
    question.filter.fits.clear();
    question.filter.grade = 1;
    CHECK(no_evening(question).part == Part::grade);
}
