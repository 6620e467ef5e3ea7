#include "planner/note_worth.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;

TEST_CASE("note worth: used, lost without it, opened by it", "[planner][notes]") {
    const auto wanted = obvious::wanted({{{60, 62}}, {{60, 62, 64}}, {{60, 65}}, {{60, 64, 65}}});
    const auto worth = worth_of_notes(wanted, obvious::note_set({60, 62, 71}), NoteGroups());
    const std::vector<NoteWorth> expected{{60, Had::yes, 4, 1, 0},
                                          {62, Had::yes, 2, 1, 0},
                                          {64, Had::no, 2, 0, 1},
                                          {65, Had::no, 2, 0, 1},
                                          {71, Had::yes, 0, 0, 0}};
    CHECK(worth == expected);
}

TEST_CASE("note worth: a group is had in part, and opens what needs any of it", "[planner][notes]") {
    NoteGroups groups;
    groups.join(obvious::note_set({61, 73, 85}), 1);
    const auto wanted = obvious::wanted({{{61, 73}}, {{73}}, {{61, 62}}});
    const auto worth = worth_of_notes(wanted, obvious::note_set({73}), groups);
    const std::vector<NoteWorth> expected{{61, Had::in_part, 3, 1, 1}, {62, Had::no, 1, 0, 0}};
    CHECK(worth == expected);
    // 85 is in no tune: without it the group is still had.
    CHECK(worth_of_notes(wanted, obvious::note_set({61, 73}), groups).front().had == Had::yes);
    CHECK(needs_of(wanted, groups).front().missing == obvious::note_set({61}));
}

TEST_CASE("note worth: what it opens is what fits with it and did not before", "[planner][notes]") {
    std::mt19937 random(811);
    for (int round = 0; round < 200; ++round) {
        const auto wanted = obvious::random_tunes(random, 8, 15, 4);
        music::NoteSet have;
        for (int note = 60; note < 68; ++note)
            if (random() % 2 == 0) have.add(note);
        const auto fit = [&wanted](const music::NoteSet& notes) {
            return std::count_if(wanted.begin(), wanted.end(),
                                 [&](const Wanted& tune) { return tune.needed.is_within(notes); });
        };
        for (const NoteWorth& note : worth_of_notes(wanted, have, NoteGroups())) {
            const music::NoteSet alone = obvious::note_set({note.lead});
            REQUIRE(note.opens == fit(have | alone) - fit(have));
            REQUIRE(note.lost == fit(have) - fit(have.without(alone)));
            REQUIRE((note.had == Had::yes) == have.has(note.lead));
        }
    }
}
