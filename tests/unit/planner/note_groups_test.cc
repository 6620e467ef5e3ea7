#include "planner/note_groups.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

TEST_CASE("note groups: every note by itself takes time 1", "[planner][note_groups]") {
    const NoteGroups groups;
    CHECK(groups.lead_of(72) == 72);
    CHECK(groups.group_of(72) == note_set({72}));
    CHECK(groups.leads_of(note_set({60, 72})) == note_set({60, 72}));
    CHECK(groups.time_of(note_set({60, 72, 127})) == 3);
}

TEST_CASE("note groups: a group goes by its lowest note", "[planner][note_groups]") {
    NoteGroups groups;
    groups.set_time(64, 5);
    groups.join(note_set({61, 73}), 3);
    CHECK(groups.lead_of(73) == 61);
    CHECK(groups.leads_of(note_set({73, 64})) == note_set({61, 64}));
    CHECK(groups.notes_under(note_set({61, 64})) == note_set({61, 64, 73}));
    CHECK(groups.time_of(note_set({61, 64})) == 8);
}
