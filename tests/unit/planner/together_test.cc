#include "planner/together.h"

#include <catch2/catch.hpp>
#include <random>

#include "music/note_expression.h"

namespace {

music::NoteSet notes(const char* text) { return music::read_notes(text); }

std::vector<std::int64_t> values(const std::vector<tune::TuneId>& ids) {
    std::vector<std::int64_t> found;
    for (const tune::TuneId id : ids) found.push_back(id.value);
    return found;
}

}  // namespace

TEST_CASE("what all can play, and the one note of one of them that opens most", "[planner]") {
    const std::vector<planner::Wanted> wanted{{{1}, notes("D4 E4"), 1},    {{2}, notes("D4 G4"), 1},
                                              {{3}, notes("E4 G4"), 1},    {{4}, notes("D4 A4"), 1},
                                              {{5}, notes("D4 B4 G4"), 1}, {{6}, notes("C5"), 1}};
    const music::NoteSet reach = notes("D4 E4 G4 A4 B4");
    const std::vector<planner::Member> members{{"a", notes("D4 E4 G4"), reach}, {"b", notes("D4 E4 A4"), reach}};
    const auto found = planner::play_together(wanted, members);
    CHECK(found.common == notes("D4 E4"));
    CHECK(values(found.now) == std::vector<std::int64_t>{1});
    CHECK(found.own == std::vector<std::int64_t>{3, 2});
    REQUIRE(found.notes.size() == 2);
    CHECK(found.notes[0].notes == music::read_notes("G4"));  // G4: b learns it, two tunes
    CHECK(found.notes[0].learners == std::vector<std::size_t>{1});
    CHECK(values(found.notes[0].opens) == std::vector<std::int64_t>{2, 3});
    CHECK(found.notes[1].notes == music::read_notes("A4"));
    CHECK(found.notes[1].learners == std::vector<std::size_t>{0});
    CHECK(found.out_of_reach == 1);  // C5 is on no instrument here
}

TEST_CASE("a note of one learner goes before one that two must learn", "[planner]") {
    const std::vector<planner::Wanted> wanted{
        {{1}, notes("D4 G4"), 1}, {{2}, notes("D4 A4"), 1}, {{3}, notes("D4 A4"), 1}};
    const std::vector<planner::Member> members{{"a", notes("D4 G4"), notes("D4 G4 A4")},
                                               {"b", notes("D4"), notes("D4 G4 A4")}};
    const auto found = planner::play_together(wanted, members);
    REQUIRE(found.notes.size() == 2);
    CHECK(found.notes[0].notes == music::read_notes("G4"));
    CHECK(found.notes[1].learners == std::vector<std::size_t>{0, 1});
}

TEST_CASE("what opens together is what opens when it is learnt", "[planner]") {
    std::mt19937 random(3);  // any seed does
    const auto some = [&](int percent) {
        music::NoteSet set;
        for (int midi = 60; midi < 72; ++midi)
            if (static_cast<int>(random() % 100) < percent) set.add(midi);
        set.add(60);
        return set;
    };
    for (int round = 0; round < 100; ++round) {
        std::vector<planner::Wanted> wanted;
        for (int at = 0; at < 30; ++at) wanted.push_back({{at}, some(25), 1});
        std::vector<planner::Member> members;
        for (int at = 0; at < 3; ++at) {
            const music::NoteSet have = some(70);
            members.push_back({"m", have, have | some(70)});
        }
        const auto found = planner::play_together(wanted, members);
        for (const auto* proposed : {&found.notes, &found.groups})
            for (const planner::SharedNotes& shared : *proposed) {
                auto taught = members;
                for (const std::size_t learner : shared.learners) {
                    CHECK(shared.notes.is_within(members[learner].reach | members[learner].have));
                    taught[learner].have = taught[learner].have | shared.notes;
                }
                CHECK(planner::play_together(wanted, taught).now.size() == found.now.size() + shared.opens.size());
            }
    }
}

TEST_CASE("what no single note opens two or three open, and no group that a smaller one makes needless", "[planner]") {
    const music::NoteSet reach = notes("D4 E4 G4 A4 B4 C5");
    const std::vector<planner::Member> members{{"a", notes("D4 E4 G4"), reach}, {"b", notes("D4 E4"), reach}};
    const std::vector<planner::Wanted> wanted{{{1}, notes("D4 G4 A4"), 1}, {{2}, notes("E4 A4 G4"), 1},
                                              {{3}, notes("A4 B4 C5"), 1}, {{4}, notes("D4 A4 B4"), 1},
                                              {{5}, notes("D4 C5 B4"), 1}, {{6}, notes("G4 A4 B4 C5"), 1}};
    const auto found = planner::play_together(wanted, members);
    CHECK(found.notes.empty());
    // Of two notes G4 A4 opens most; a group is measured by smaller ones alone.
    REQUIRE(found.groups.size() == 4);
    CHECK(found.groups[0].notes == notes("G4 A4"));
    CHECK(values(found.groups[0].opens) == std::vector<std::int64_t>{1, 2});
    CHECK(found.groups[0].learners == std::vector<std::size_t>{0, 1});
    CHECK(found.groups[1].notes == notes("A4 B4"));
    CHECK(found.groups[2].notes == notes("B4 C5"));
    CHECK(found.groups[3].notes == notes("A4 B4 C5"));
    CHECK(values(found.groups[3].opens) == std::vector<std::int64_t>{3, 4, 5});
}

TEST_CASE("a group is no use where one note alone opens as much", "[planner]") {
    const music::NoteSet reach = notes("D4 E4 G4 A4");
    const std::vector<planner::Member> members{{"a", notes("D4"), reach}, {"b", notes("D4"), reach}};
    const std::vector<planner::Wanted> wanted{
        {{1}, notes("D4 E4"), 1}, {{2}, notes("D4 E4 G4"), 1}, {{3}, notes("D4 G4 A4"), 1}};
    const auto found = planner::play_together(wanted, members);
    REQUIRE(found.groups.size() == 1);
    CHECK(found.groups[0].notes == notes("E4 G4"));  // opens two; G4 A4 one, as E4 alone does
}
