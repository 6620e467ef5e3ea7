// The search for the best ladder, over what tunes have in common. Inside this room only.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <utility>
#include <vector>

namespace repertoire {

// A note or a bar that a tune asks for and others may ask for too, and what it costs in this tune while it is new.
struct Asked {
    std::uint32_t thing = 0;  // from 0
    std::int64_t points = 0;  // 0 or more
};

// A tune as the search sees it.
struct Climbed {
    std::vector<Asked> asked;  // each thing once
    std::int64_t alone = 0;    // points for what no other tune asks for
};

// Of ladders of at most kMostStones stones to one tune, `top`, the one whose rungs, squared, add up to least. A rung
// costs what its tune asks for and those before it did not. Every stone asks for something of the top that those before
// it did not. Equals: fewer stones, then those that come first among the stones.
class LadderSearch {
public:
    LadderSearch(std::vector<Climbed> stones, Climbed top);

    // Tries every ladder of these stones, unless `most_evaluations` of a tune on a rung are reached before. Those that
    // a bound rules out are not looked at: whatever the top asks for and is not there yet has to be paid on some rung,
    // by the tune that asks least for it, and no stone takes more off the top later than now. May be called again with
    // other stones; the best of all is kept. Whether all were tried.
    bool try_all(std::span<const std::size_t> stones, std::int64_t most_evaluations);

    // The sum of squares with this stone alone.
    std::int64_t squares_with(std::size_t stone) const;

    const std::vector<std::size_t>& best() const noexcept { return best_; }

private:
    // What is left to learn once the stones so far are known; by place among the stones that are tried.
    struct Standing {
        std::vector<std::int64_t> cost;  // of the stone
        std::vector<std::int64_t> gain;  // what it takes off the top
        std::int64_t top = 0;            // cost of the top
        std::int64_t owed = 0;           // at least, by all rungs that are left
    };

    Standing learn(const Standing& standing, std::size_t place);
    void forget(std::size_t learnt);  // back to so many things known
    void climb(const Standing& standing, std::int64_t squares);
    void try_last(const Standing& standing, std::int64_t squares);
    void offer(std::int64_t squares, const std::vector<std::size_t>& rungs);
    bool can_win(std::int64_t least, std::size_t stones) const;

    std::vector<Climbed> stones_;
    Climbed top_;
    std::vector<std::int64_t> points_of_top_;  // by thing; 0 where the top does not ask for it
    std::vector<std::int64_t> least_;          // by thing of the top: what the tune pays that asks least for it

    std::vector<std::size_t> tried_;                                         // by place
    std::vector<std::vector<std::pair<std::size_t, std::int64_t>>> askers_;  // by thing: place and points
    std::vector<char> known_;                                                // by thing
    std::vector<std::uint32_t> learnt_;                                      // things, in the order they became known
    std::vector<std::size_t> rungs_;                                         // stones so far
    std::int64_t evaluations_left_ = 0;

    std::vector<std::size_t> best_;
    std::int64_t best_squares_ = std::numeric_limits<std::int64_t>::max();
};

}  // namespace repertoire
