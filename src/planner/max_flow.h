// Maximum flow through a small network of whole-number capacities.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace planner {

// Dinic's method: shortest augmenting paths, one layered network at a time. Vertices are 0 to vertices - 1. The
// capacities that leave the source together must stay below 2^62.
class MaxFlow {
public:
    static constexpr std::int64_t kUnlimited = std::int64_t{1} << 62;

    explicit MaxFlow(std::size_t vertices);

    // Returns the arc's number, for residual().
    std::size_t add_arc(std::size_t from, std::size_t to, std::int64_t capacity);

    // No arcs may be added afterwards. Called once.
    std::int64_t run(std::size_t source, std::size_t sink);

    // What could still flow along an arc.
    std::int64_t residual(std::size_t arc) const { return arcs_[2 * arc].left; }

    // Vertices the source still reaches along arcs with something left: the smallest side of a least cut.
    std::vector<bool> source_side(std::size_t source) const;

private:
    struct Arc {
        std::size_t to;
        std::int64_t left;
    };

    bool layer(std::size_t source, std::size_t sink);
    std::int64_t push(std::size_t vertex, std::size_t sink, std::int64_t at_most);
    void index_arcs();

    std::size_t vertices_;
    std::vector<Arc> arcs_;             // arc i at 2i, its reverse at 2i + 1
    std::vector<std::size_t> first_;    // into leaving_, one more than vertices
    std::vector<std::size_t> leaving_;  // arcs by the vertex they leave
    std::vector<std::size_t> next_;     // first arc of each vertex not yet exhausted in this phase
    std::vector<int> depth_;
};

}  // namespace planner
