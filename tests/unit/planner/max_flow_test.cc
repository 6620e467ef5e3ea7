#include "planner/max_flow.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

namespace {

struct Arc {
    std::size_t from, to;
    std::int64_t capacity;
};

// By trying every side of the source. The maximum flow equals it: Ford and Fulkerson, "Maximal flow through a network",
// Canadian Journal of Mathematics 8 (1956) 399-404.
std::int64_t least_cut(const std::vector<Arc>& arcs, std::size_t vertices, std::size_t source, std::size_t sink) {
    std::int64_t least = planner::MaxFlow::kUnlimited;
    for (std::size_t side = 0; side < std::size_t{1} << vertices; ++side) {
        if ((side >> source & 1) == 0 || (side >> sink & 1) != 0) continue;
        std::int64_t cut = 0;
        for (const Arc& arc : arcs)
            if ((side >> arc.from & 1) != 0 && (side >> arc.to & 1) == 0) cut += arc.capacity;
        least = std::min(least, cut);
    }
    return least;
}

}  // namespace

// 0 is the source, 3 the sink. The shortest way 0 1 2 3 takes the middle arc; the second unit comes 0 5 6 2 and has to
// send the first one back from 2 to 1, to go on 4 7 3.
TEST_CASE("max flow: what was sent through a middle arc is sent back for a better way", "[planner][max_flow]") {
    planner::MaxFlow flow(8);
    flow.add_arc(0, 1, 1);
    const std::size_t middle = flow.add_arc(1, 2, 1);
    flow.add_arc(2, 3, 1);
    flow.add_arc(1, 4, 1);
    flow.add_arc(4, 7, 1);
    flow.add_arc(7, 3, 1);
    flow.add_arc(0, 5, 1);
    flow.add_arc(5, 6, 1);
    flow.add_arc(6, 2, 1);
    CHECK(flow.run(0, 3) == 2);
    CHECK(flow.residual(middle) == 1);
}

TEST_CASE("max flow: no way from source to sink", "[planner][max_flow]") {
    planner::MaxFlow flow(3);
    flow.add_arc(0, 1, 7);
    CHECK(flow.run(0, 2) == 0);
    CHECK(flow.source_side(0) == std::vector<bool>{true, true, false});
}

TEST_CASE("max flow: equals the least cut of small random networks, and source_side is one", "[planner][max_flow]") {
    std::mt19937 random(20240117);
    for (int round = 0; round < 300; ++round) {
        const std::size_t vertices = 2 + random() % 7;
        std::vector<Arc> arcs;
        planner::MaxFlow flow(vertices);
        for (std::size_t i = 0; i < 3 * vertices; ++i) {
            const Arc arc{random() % vertices, random() % vertices, static_cast<std::int64_t>(random() % 10)};
            if (arc.from == arc.to) continue;
            arcs.push_back(arc);
            flow.add_arc(arc.from, arc.to, arc.capacity);
        }
        const std::int64_t value = flow.run(0, 1);
        REQUIRE(value == least_cut(arcs, vertices, 0, 1));
        const std::vector<bool> side = flow.source_side(0);
        std::int64_t cut = 0;
        for (const Arc& arc : arcs)
            if (side[arc.from] && !side[arc.to]) cut += arc.capacity;
        REQUIRE(cut == value);
    }
}
