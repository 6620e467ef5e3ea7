#include "planner/block_order.h"

#include <catch2/catch.hpp>

#include "obvious.h"
#include "planner/bound.h"

using namespace planner;

namespace {

// A ring of `notes` pairs, each of weight 2: one block, whatever the size.
Block ring(int notes) {
    std::vector<obvious::Tune> tunes;
    for (int note = 0; note < notes; ++note) tunes.push_back({{note, (note + 1) % notes}, 2});
    const auto demands = gather_demands(obvious::wanted(tunes), {}, obvious::kSingleNotes);
    const music::NoteSet leads = leads_of(demands);
    return {leads, demands, weight_of(demands), notes,
            least_cost_of_block(leads, weight_of(demands), obvious::kSingleNotes)};
}

}  // namespace

TEST_CASE("block order: table and search tell the same", "[planner][block_order]") {
    std::mt19937 random(42);
    for (int round = 0; round < 40; ++round) {
        Limits search_only;
        search_only.max_table_bytes = 0;
        const Deadline no_hurry(1e9);
        const auto demands = gather_demands(obvious::random_tunes(random, 12, 40, 5), {}, obvious::kSingleNotes);
        for (const Block& block : cut_into_blocks(demands, {}, obvious::kSingleNotes)) {
            const BlockOrder table = order_block(block, {}, obvious::kSingleNotes, {}, {}, no_hurry);
            const BlockOrder search = order_block(block, {}, obvious::kSingleNotes, {}, search_only, no_hurry);
            REQUIRE(table.leads == search.leads);
            REQUIRE(table.cost == search.cost);
            REQUIRE(table.lower_bound == table.cost);
            REQUIRE(search.lower_bound == search.cost);
        }
    }
}

TEST_CASE("block order: a ring is learnt round about", "[planner][block_order]") {
    // Each note after the first meets one pair, the last two: 2 x (2 + 3 + ... + n + n).
    for (const int notes : {3, 10, 16, 17, 20}) {
        const BlockOrder order = order_block(ring(notes), {}, obvious::kSingleNotes, {}, {}, Deadline(1e9));
        CHECK(order.cost == notes * (notes + 1) - 2 + 2 * notes);
        CHECK(order.lower_bound == order.cost);
    }
}

TEST_CASE("block order: without leave to search there is an order and an honest bound", "[planner][block_order]") {
    for (const int notes : {17, 40, 64, 65, 128}) {
        Limits none;
        none.max_states = 0;
        none.max_table_bytes = 0;
        const BlockOrder order = order_block(ring(notes), {}, obvious::kSingleNotes, {}, none, Deadline(0));
        CHECK(order.leads.size() == static_cast<std::size_t>(notes));
        CHECK(order.lower_bound <= notes * (notes + 1) - 2 + 2 * notes);
        CHECK(order.lower_bound >= notes * (notes + 1));
        CHECK(order.cost >= notes * (notes + 1) - 2 + 2 * notes);
    }
}

TEST_CASE("block order: a table beyond the memory allowed is not begun", "[planner][block_order]") {
    // A table of 33 units has more bytes than 32 bits can count.
    for (const int notes : {30, 33, 40, 41}) {
        Limits table_alone;
        table_alone.max_states = 0;
        const BlockOrder order = order_block(ring(notes), {}, obvious::kSingleNotes, {}, table_alone, Deadline(0));
        CHECK(order.leads.size() == static_cast<std::size_t>(notes));
        CHECK(order.cost >= notes * (notes + 1) - 2 + 2 * notes);
    }
}
