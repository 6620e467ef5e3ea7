// Method: E. A. Dinic, "Algorithm for solution of a problem of maximum flow in networks with power estimation",
// Soviet Math. Doklady 11 (1970) 1277-1280 (cited from memory). Tested by tests/unit/planner/max_flow_test.cc.
#include "planner/max_flow.h"

#include <algorithm>

#include "base/invariant.h"

namespace planner {

MaxFlow::MaxFlow(std::size_t vertices) : vertices_(vertices), depth_(vertices) {}

std::size_t MaxFlow::add_arc(std::size_t from, std::size_t to, std::int64_t capacity) {
    INVARIANT(first_.empty() && from < vertices_ && to < vertices_ && capacity >= 0);
    arcs_.push_back({to, capacity});
    arcs_.push_back({from, 0});
    return arcs_.size() / 2 - 1;
}

void MaxFlow::index_arcs() {
    first_.assign(vertices_ + 1, 0);
    for (std::size_t arc = 0; arc < arcs_.size(); ++arc) ++first_[arcs_[arc ^ 1].to + 1];
    for (std::size_t vertex = 0; vertex < vertices_; ++vertex) first_[vertex + 1] += first_[vertex];
    leaving_.resize(arcs_.size());
    std::vector<std::size_t> free = first_;
    for (std::size_t arc = 0; arc < arcs_.size(); ++arc) leaving_[free[arcs_[arc ^ 1].to]++] = arc;
}

bool MaxFlow::layer(std::size_t source, std::size_t sink) {
    std::fill(depth_.begin(), depth_.end(), -1);
    depth_[source] = 0;
    std::vector<std::size_t> queue{source};
    for (std::size_t head = 0; head < queue.size() && depth_[sink] < 0; ++head) {
        const std::size_t vertex = queue[head];
        for (std::size_t place = first_[vertex]; place < first_[vertex + 1]; ++place) {
            const Arc& arc = arcs_[leaving_[place]];
            if (arc.left == 0 || depth_[arc.to] >= 0) continue;
            depth_[arc.to] = depth_[vertex] + 1;
            queue.push_back(arc.to);
        }
    }
    return depth_[sink] >= 0;
}

std::int64_t MaxFlow::push(std::size_t vertex, std::size_t sink, std::int64_t at_most) {
    if (vertex == sink) return at_most;
    std::int64_t pushed = 0;
    for (std::size_t& place = next_[vertex]; place < first_[vertex + 1]; ++place) {
        const std::size_t number = leaving_[place];
        if (arcs_[number].left == 0 || depth_[arcs_[number].to] != depth_[vertex] + 1) continue;
        const std::int64_t part = push(arcs_[number].to, sink, std::min(at_most - pushed, arcs_[number].left));
        arcs_[number].left -= part;
        arcs_[number ^ 1].left += part;
        pushed += part;
        if (pushed == at_most) break;  // the arc may have more to give: it stays the next one
    }
    return pushed;
}

std::int64_t MaxFlow::run(std::size_t source, std::size_t sink) {
    INVARIANT(first_.empty() && source != sink);
    index_arcs();
    std::int64_t flow = 0;
    while (layer(source, sink)) {
        next_.assign(first_.begin(), first_.end() - 1);
        flow += push(source, sink, kUnlimited);
    }
    return flow;
}

std::vector<bool> MaxFlow::source_side(std::size_t source) const {
    std::vector<bool> reached(vertices_, false);
    reached[source] = true;
    std::vector<std::size_t> queue{source};
    for (std::size_t head = 0; head < queue.size(); ++head) {
        for (std::size_t place = first_[queue[head]]; place < first_[queue[head] + 1]; ++place) {
            const Arc& arc = arcs_[leaving_[place]];
            if (arc.left == 0 || reached[arc.to]) continue;
            reached[arc.to] = true;
            queue.push_back(arc.to);
        }
    }
    return reached;
}

}  // namespace planner
