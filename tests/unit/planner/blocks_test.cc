#include "planner/blocks.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

namespace {

std::vector<Block> blocks_of(const std::vector<obvious::Tune>& tunes, const std::vector<int>& have = {}) {
    const music::NoteSet known = note_set(have);
    return cut_into_blocks(gather_demands(obvious::wanted(tunes), known, obvious::kSingleNotes), known,
                           obvious::kSingleNotes);
}

std::vector<music::NoteSet> notes_of_blocks(const std::vector<Block>& blocks) {
    std::vector<music::NoteSet> notes;
    for (const Block& block : blocks) notes.push_back(block.leads);
    return notes;
}

// Weight met by a set, notes in it.
struct Density {
    std::int64_t weight = 0;
    std::int64_t notes = 1;
};

bool exceeds(Density a, Density b) { return a.weight * b.notes > b.weight * a.notes; }

}  // namespace

TEST_CASE("blocks: two of five notes first", "[planner][blocks]") {
    // Densities 5/2, then 5/3. Worked by hand and confirmed by permutation.
    const auto blocks = blocks_of({{{1, 2}, 3}, {{1, 2, 3}, 2}, {{4}, 1}, {{4, 5}, 4}});
    CHECK(notes_of_blocks(blocks) == std::vector{note_set({4, 5}), note_set({1, 2, 3})});
    CHECK(blocks[0].weight == 5);
    CHECK(blocks[1].weight == 5);
    CHECK(blocks[0].least_cost == 8);  // 7.5, rounded up
    CHECK(uncut_block(gather_demands(obvious::wanted({{{1, 2}, 3}, {{1, 2, 3}, 2}, {{4}, 1}, {{4, 5}, 4}}), {},
                                     obvious::kSingleNotes),
                      {}, obvious::kSingleNotes)
              .least_cost == 8 + 10 + 10);
}

TEST_CASE("blocks: a triangle, a pair and a single note", "[planner][blocks]") {
    // Densities 2, 3/2, 1. Worked by hand and confirmed by permutation.
    const std::vector<obvious::Tune> tunes{{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}};
    CHECK(notes_of_blocks(blocks_of(tunes)) == std::vector{note_set({1, 2, 3}), note_set({5, 6}), note_set({4})});
    CHECK(notes_of_blocks(blocks_of(tunes, {1})) == std::vector{note_set({2, 3}), note_set({5, 6}), note_set({4})});
}

TEST_CASE("blocks: of equal density the smallest, then the easiest first", "[planner][blocks]") {
    // E4 and C4 beside D4 are equally near, C#4 is an accidental, A4 and B4 come as a pair.
    const auto blocks = blocks_of({{{61}, 1}, {{69, 71}, 2}, {{64}, 1}, {{60}, 1}}, {62});
    CHECK(notes_of_blocks(blocks) == std::vector{note_set({60}), note_set({64}), note_set({61}), note_set({69, 71})});
}

TEST_CASE("blocks: nothing to cut", "[planner][blocks]") { CHECK(blocks_of({{{60}, 1}}, {60}).empty()); }

TEST_CASE("blocks: each is the densest set there is, and no smaller one is as dense", "[planner][blocks]") {
    std::mt19937 random(7301);
    for (int round = 0; round < 300; ++round) {
        const int notes = 2 + static_cast<int>(random() % 7);
        const auto wanted = obvious::random_tunes(random, notes, 1 + static_cast<int>(random() % 14), 5);
        std::vector<Demand> rest = gather_demands(wanted, {}, obvious::kSingleNotes);
        for (const Block& block : cut_into_blocks(rest, {}, obvious::kSingleNotes)) {
            const Density density{block.weight, block.leads.size()};
            REQUIRE(weight_of(demands_within(rest, block.leads)) == block.weight);
            REQUIRE(block.demands == demands_within(rest, block.leads));
            for (unsigned set = 1; set < 1U << notes; ++set) {
                music::NoteSet other;
                for (int note = 0; note < notes; ++note)
                    if ((set >> note & 1) != 0) other.add(60 + note);
                const Density others{weight_of(demands_within(rest, other)), other.size()};
                REQUIRE_FALSE(exceeds(others, density));
                if (!exceeds(density, others)) REQUIRE(other.size() >= block.leads.size());
            }
            rest = demands_after(rest, block.leads);
        }
        REQUIRE(rest.empty());
    }
}

TEST_CASE("bound: below the least cost of any order, and at least half of it", "[planner][bound]") {
    std::mt19937 random(88);
    for (int round = 0; round < 300; ++round) {
        const auto wanted = obvious::random_tunes(random, 2 + static_cast<int>(random() % 5), 8, 4);
        const std::int64_t bound =
            uncut_block(gather_demands(wanted, {}, obvious::kSingleNotes), {}, obvious::kSingleNotes).least_cost;
        const std::int64_t least = obvious::least_cost(wanted, {});
        REQUIRE(bound <= least);
        REQUIRE(2 * bound >= least);
    }
}
