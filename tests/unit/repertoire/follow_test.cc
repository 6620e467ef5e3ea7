#include "repertoire/follow.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "shapes.h"

using repertoire::follow;
using repertoire::Follow;
using repertoire::Join;
using repertoire::KeyChange;
using repertoire::RhythmChange;
using repertoire::TuneShape;
using repertoire_test::shape;
using repertoire_test::shape_of_abc;

namespace {

Follow between(const std::string& first, const std::string& second) {
    return *follow(shape(1, "reel", first), shape(2, "reel", second));
}

Join join_of(int semitones) {
    TuneShape first = shape(1, "reel", "G major"), second = shape(2, "reel", "G major");
    second.first_note = first.last_note + semitones;
    return follow(first, second)->join;
}

}  // namespace

TEST_CASE("follow: rhythms are not mixed, but for the customary changes", "[repertoire][follow]") {
    // Source: common practice, no source.
    const auto change = [](const char* first, const char* second) {
        const auto found = follow(shape(1, first, "G major"), shape(2, second, "G major"));
        return found ? std::optional(found->rhythm) : std::nullopt;
    };
    CHECK(change("reel", "reel") == RhythmChange::same);
    CHECK(change("march", "strathspey") == RhythmChange::customary);
    CHECK(change("strathspey", "reel") == RhythmChange::customary);
    CHECK(change("jig", "reel") == RhythmChange::customary);
    CHECK(change("air", "hornpipe") == RhythmChange::customary);
    CHECK(change("reel", "jig") == std::nullopt);
    CHECK(change("reel", "air") == std::nullopt);
    CHECK(change("polka", "hornpipe") == std::nullopt);
    CHECK(change("", "") == std::nullopt);
    CHECK(change("jig", "") == std::nullopt);
}

TEST_CASE("follow: the pace before and after a change of rhythm is told", "[repertoire][follow]") {
    const auto found = *follow(shape(1, "jig", "G major"), shape(2, "reel", "G major"));
    CHECK(found.easy_pace_from == 75);
    CHECK(found.easy_pace_to == 70);
    CHECK(follow(shape(1, "air", "G major"), shape(2, "reel", "G major"))->easy_pace_from == std::nullopt);
}

TEST_CASE("follow: changes of key that lift", "[repertoire][follow]") {
    // Source: common practice, no source.
    for (const auto& [first, second] : {std::pair{"G major", "A major"},
                                        {"D major", "G major"},
                                        {"G major", "D major"},
                                        {"A minor", "A major"},
                                        {"E minor", "G major"},
                                        {"E minor", "D major"},
                                        {"A dorian", "D dorian"},
                                        {"G major", "A mixolydian"},
                                        {"D mixolydian", "G major"}}) {
        CAPTURE(first, second);
        CHECK(between(first, second).key == KeyChange::lift);
    }
    CHECK(between("G major", "G major").key == KeyChange::same);
    CHECK(between("A major", "A minor").key == KeyChange::far);
    CHECK(between("G major", "E minor").key == KeyChange::near);
    CHECK(between("G major", "A dorian").key == KeyChange::near);  // the same notes
    CHECK(between("G major", "Eb major").key == KeyChange::far);
    CHECK(between("", "G major").key == KeyChange::unknown);
    CHECK(between("G major", "A major").points > between("G major", "G major").points);
    CHECK(between("G major", "A major").key_semitones == 2);
    CHECK(between("G major", "D major").key_semitones == -5);
    CHECK(between("G major", "C# major").key_semitones == 6);
}

TEST_CASE("follow: a repeat, a step or a third joins easily, a wide leap does not", "[repertoire][follow]") {
    // Source: common practice, no source.
    CHECK(join_of(0) == Join::repeat);
    for (const int semitones : {1, 2, -1, -2}) CHECK(join_of(semitones) == Join::step);
    for (const int semitones : {3, 4, -3, -4}) CHECK(join_of(semitones) == Join::third);
    for (const int semitones : {5, 7, -7}) CHECK(join_of(semitones) == Join::leap);
    for (const int semitones : {8, 12, -9, -24}) CHECK(join_of(semitones) == Join::wide);
    TuneShape first = shape(1, "reel", "G major"), second = shape(2, "reel", "G major");
    second.first_note = first.last_note;
    const int easy = follow(first, second)->points;
    second.first_note = first.last_note - 14;
    CHECK(follow(first, second)->points < easy);
    CHECK(follow(first, second)->join_semitones == -14);
}

TEST_CASE("follow: the join is from the last note as played to the pick-up", "[repertoire][follow]") {
    const TuneShape first = shape_of_abc(
        "X:1\nT:Oar\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|A2AB c2BA:|\n"
        "|:gedB GABd|1 g2f2 e4:|2 A2F2 G4:|\n");
    const TuneShape second =
        shape_of_abc("X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\nA2|d2fd Adfd|e2ef g2fe|f2d2 d2:|\n", 2);
    CHECK(first.last_note == 67);
    CHECK(second.first_note == 69);
    CHECK(follow(first, second)->join_semitones == 2);
    CHECK(first.bars == 8);
}

TEST_CASE("follow: new notes are those the first does not use", "[repertoire][follow]") {
    const TuneShape first = shape(1, "reel", "G major", "D4 E4 G4 A4 B4");
    const TuneShape second = shape(2, "reel", "D major", "D4 F#4 A4 B4 C#5");
    CHECK(follow(first, second)->fresh == music::read_notes("F#4 C#5"));
    CHECK(follow(second, first)->fresh == music::read_notes("E4 G4"));
    CHECK(follow(first, shape(3, "reel", "D major", "D4 A4"))->points > follow(first, second)->points);
}

TEST_CASE("follow: a like opening is found in any key, and the same one is not proposed", "[repertoire][follow]") {
    const TuneShape first = shape_of_abc("X:1\nT:Oar\nR:reel\nM:4/4\nL:1/8\nK:G\n|:GABG d2BG|A2AB c2BA|G4 G4:|\n");
    const TuneShape moved =
        shape_of_abc("X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:A\n|:ABcA e2cA|B2Bc d2cB|A2c2 A4:|\n", 2);
    const TuneShape like = shape_of_abc("X:3\nT:Hook\nR:reel\nM:4/4\nL:1/8\nK:G\n|:GABG d2BG|A2FE D2EF|G4 G4:|\n", 3);
    const TuneShape other = shape_of_abc("X:4\nT:Bell\nR:reel\nM:4/4\nL:1/8\nK:G\n|:d2gf edcB|cBAG FGAF|G4 G4:|\n", 4);
    CHECK(follow(first, moved)->opening == Approx(1));
    CHECK(follow(first, like)->opening >= repertoire::kLikeOpening);
    CHECK(follow(first, like)->opening < repertoire::kSameOpening);
    CHECK(follow(first, other)->opening < repertoire::kLikeOpening);
    CHECK(repertoire::opening_likeness(first.opening, other.opening) ==
          repertoire::opening_likeness(other.opening, first.opening));
    const auto followers = repertoire::rank_followers(first, {other, moved, like, first});
    CHECK(followers.same_opening == 1);
    CHECK(followers.best.size() == 2);
}

TEST_CASE("follow: a fall of the highest note counts against a tune", "[repertoire][follow]") {
    const TuneShape first = shape(1, "reel", "G major", "D4 G4 B4 G5");
    const TuneShape high = shape(2, "reel", "G major", "D4 G4 B4 G5");
    TuneShape low = high;
    low.needed = music::read_notes("D4 G4 B4");
    CHECK(follow(first, low)->top_semitones == -8);
    CHECK(follow(first, low)->points == follow(first, high)->points + repertoire::kPointsOfFallingTop);
}

TEST_CASE("follow: the points are those of the parts", "[repertoire][follow]") {
    TuneShape first = shape(1, "reel", "G major"), second = shape(2, "reel", "A major");
    second.first_note = first.last_note + 2;
    REQUIRE(follow(first, second)->opening < repertoire::kLikeOpening);
    CHECK(follow(first, second)->points ==
          repertoire::kPointsOfLift + repertoire::kPointsOfEasyJoin + repertoire::kPointsWithoutNewNotes);
}

TEST_CASE("follow: the order does not depend on the order of the candidates", "[repertoire][follow]") {
    std::vector<TuneShape> tunes;
    const char* const keys[] = {"G major", "D major", "A major", "E minor", "A dorian"};
    for (std::int64_t id = 1; id <= 30; ++id) tunes.push_back(shape(id, id % 7 == 0 ? "jig" : "reel", keys[id % 5]));
    const auto ids = [](const std::vector<TuneShape>& candidates) {
        std::vector<std::int64_t> found;
        const auto followers = repertoire::rank_followers(shape(1, "reel", "D major"), candidates);
        for (const auto& follower : followers.best) found.push_back(candidates[follower.tune].id.value);
        CHECK(followers.other_rhythm == 4);
        return found;
    };
    const auto expected = ids(tunes);
    CHECK(expected.size() == 25);  // not itself, not the four jigs
    std::mt19937 shuffles(3);
    for (int turn = 0; turn < 5; ++turn) {
        std::shuffle(tunes.begin(), tunes.end(), shuffles);
        CHECK(ids(tunes) == expected);
    }
}

TEST_CASE("tune shape: bars are counted by time, as played", "[repertoire][follow]") {
    CHECK(shape_of_abc("X:1\nT:t\nR:jig\nM:6/8\nL:1/8\nK:D\nA|DFA d2A|BAF A2F|E2E EFG|FDD D2:|\n").bars == 8);
    CHECK(shape_of_abc("X:1\nT:t\nR:jig\nM:6/8\nL:1/8\nK:D\nDFA d2A|BAF A2F|E2E EFG|FDD D3|]\n").bars == 4);
    // Every part ends short, for its pick-up.
    CHECK(shape_of_abc("X:1\nT:t\nR:jig\nM:6/8\nL:1/8\nK:D\n|:A|DFA d2A|FDD D2:|\n|:A|BAF A2F|FDD D2:|\n").bars == 8);
}

TEST_CASE("tune shape: a tune ends where a player ends, and what is played on the way back counts",
          "[repertoire][follow]") {
    const std::string parts = "DFA d2A|FDD D2\"Fine\":|\n|:A|BAF A2F|EFG A2\"D.C.\":|\n";
    const repertoire::TuneShape fine = shape_of_abc("X:1\nT:t\nR:jig\nM:6/8\nL:1/8\nK:D\nA|" + parts);
    CHECK(fine.last_note == 62);
    CHECK(fine.bars == 10);
    // The pick-up again at the end of a full last bar.
    CHECK(shape_of_abc("X:1\nT:t\nR:jig\nM:6/8\nL:1/8\nK:D\nA|DFA d2A|FDD D2A|]\n").last_note == 62);
}

TEST_CASE("tune shape: a tune without a note has none", "[repertoire][follow]") {
    tune::TuneRecord record;
    CHECK_FALSE(repertoire::shape_of(record, tune::Outline()));
    tune::Outline rests;
    rests.bars.push_back({0, 1000, 1, 0, false, true, false, false});
    CHECK_FALSE(repertoire::shape_of(record, rests));
}
