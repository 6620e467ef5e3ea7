#include "repertoire/next_tune.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <tuple>

#include "music/note_expression.h"

using repertoire::HandOf;
using repertoire::Learner;
using repertoire::NextGoal;
using repertoire::NextPicks;
using repertoire::Pick;
using repertoire::TuneMatter;
using repertoire::TwinOf;

namespace {

TuneMatter piece(std::int64_t id, const std::string& rhythm, std::size_t bars) {
    TuneMatter matter;
    matter.id = {id};
    matter.folded_title = std::string(1, static_cast<char>('a' + id));
    matter.rhythm = rhythm;
    matter.needed = music::read_notes("D4 E4");
    for (std::size_t bar = 0; bar < bars; ++bar) matter.figures.push_back(100 * static_cast<std::uint64_t>(id) + bar);
    return matter;
}

std::vector<std::int64_t> ids(const std::vector<TuneMatter>& tunes, const std::vector<Pick>& picks) {
    std::vector<std::int64_t> ids;
    for (const Pick& pick : picks) ids.push_back(tunes[pick.tune].id.value);
    return ids;
}

const HandOf kNoHand = [](std::size_t) { return std::nullopt; };
const TwinOf kNoTwin = [](std::size_t, std::span<const Pick>) { return std::nullopt; };

std::vector<Pick> pick_next(std::span<const TuneMatter> candidates, const Learner& learner,
                            const std::set<tune::TuneId>& wishes, const NextGoal& goal, const HandOf& hand_of) {
    return repertoire::pick_next(candidates, learner, wishes, goal, hand_of, kNoTwin).picks;
}

Learner learner() {
    Learner learner;
    learner.have = music::read_notes("D4 E4");
    return learner;
}

}  // namespace

TEST_CASE("next tune: what takes least first, equals by title", "[repertoire]") {
    const std::vector<TuneMatter> tunes{piece(3, "jig", 5), piece(1, "reel", 4), piece(2, "waltz", 5),
                                        piece(4, "polka", 9)};
    CHECK(ids(tunes, pick_next(tunes, learner(), {}, {}, kNoHand)) == std::vector<std::int64_t>{1, 2, 3});
    NextGoal one;
    one.picks = 1;
    CHECK(ids(tunes, pick_next(tunes, learner(), {}, one, kNoHand)) == std::vector<std::int64_t>{1});
    CHECK(pick_next({}, learner(), {}, {}, kNoHand).empty());
}

TEST_CASE("next tune: the others are of other rhythms unless that takes much more", "[repertoire]") {
    // One more of a rhythm weighs 4, a bar 2.
    std::vector<TuneMatter> tunes{piece(1, "reel", 4), piece(2, "reel", 4), piece(3, "jig", 5), piece(4, "polka", 5)};
    CHECK(ids(tunes, pick_next(tunes, learner(), {}, {}, kNoHand)) == std::vector<std::int64_t>{1, 3, 4});
    tunes[3] = piece(4, "polka", 20);
    const auto picks = pick_next(tunes, learner(), {}, {}, kNoHand);
    // The second reel is chosen third; listed by its points, which do not tell that, it is the second.
    CHECK(ids(tunes, picks) == std::vector<std::int64_t>{1, 2, 3});
    CHECK(picks[1].points == 80);  // 4 bars
    CHECK(picks[2].points == 100);
    // What the learner took up last counts for all of them.
    Learner ina = learner();
    ina.last_rhythms = {"jig", "jig"};
    CHECK(ids(tunes, pick_next(tunes, ina, {}, {}, kNoHand)) == std::vector<std::int64_t>{1, 2, 3});
}

TEST_CASE("next tune: last rhythms, wishes and a bad week", "[repertoire]") {
    const std::vector<TuneMatter> tunes{piece(1, "reel", 4), piece(2, "jig", 5), piece(3, "waltz", 9)};
    Learner ina = learner();
    ina.last_rhythms = {"reel"};
    CHECK(ids(tunes, pick_next(tunes, ina, {}, {}, kNoHand)).front() == 2);
    CHECK(ids(tunes, pick_next(tunes, ina, {{3}}, {}, kNoHand)).front() == 3);
    std::vector<TuneMatter> asked = tunes;
    asked[2].asked = 10;  // a point each
    CHECK(ids(asked, pick_next(asked, learner(), {}, {}, kNoHand)).front() == 1);
    asked[2].figures.resize(8);
    CHECK(ids(asked, pick_next(asked, learner(), {}, {}, kNoHand)).front() == 3);
    NextGoal brief;
    brief.is_short = true;
    CHECK(ids(tunes, pick_next(tunes, ina, {{3}}, brief, kNoHand)) == std::vector<std::int64_t>{1, 2, 3});
}

TEST_CASE("next tune: what is probably a tune the player has or is offered is held back", "[repertoire]") {
    const std::vector<TuneMatter> tunes{piece(1, "reel", 1), piece(2, "reel", 2), piece(3, "jig", 3),
                                        piece(4, "polka", 4), piece(5, "waltz", 5)};
    std::vector<std::size_t> asked;
    const TwinOf twin_of = [&](std::size_t at, std::span<const Pick> so_far) -> std::optional<tune::TuneId> {
        asked.push_back(at);
        if (at == 0) return tune::TuneId{77};                       // the player has it
        if (at == 3 && so_far.size() == 2) return tune::TuneId{2};  // offered first
        return std::nullopt;
    };
    NextPicks next = repertoire::pick_next(tunes, learner(), {}, {}, kNoHand, twin_of);
    CHECK(ids(tunes, next.picks) == std::vector<std::int64_t>{2, 3, 5});
    REQUIRE(next.held_back.size() == 2);
    CHECK(next.held_back[0].tune == 0);
    CHECK(next.held_back[0].twin == tune::TuneId{77});
    CHECK(next.held_back[1].tune == 3);
    CHECK(next.held_back[1].twin == tune::TuneId{2});
    CHECK(asked == std::vector<std::size_t>{0, 1, 2, 3, 4});
    // A wish is somebody's own word.
    next = repertoire::pick_next(tunes, learner(), {{1}}, {}, kNoHand, twin_of);
    CHECK(ids(tunes, next.picks).front() == 1);
    // Nothing is asked that no pick depends on.
    asked.clear();
    NextGoal one;
    one.picks = 1;
    next = repertoire::pick_next(tunes, learner(), {}, one, kNoHand, twin_of);
    CHECK(ids(tunes, next.picks) == std::vector<std::int64_t>{2});
    CHECK(asked == std::vector<std::size_t>{0, 1});
}

TEST_CASE("next tune: the hand is asked for only where it can decide, and decides rightly", "[repertoire]") {
    std::mt19937 random(7);
    for (int round = 0; round < 200; ++round) {
        std::vector<TuneMatter> tunes;
        std::vector<int> hands;
        for (int at = 0; at < 20; ++at) {
            tunes.push_back(piece(at, random() % 2 ? "jig" : "reel", random() % 12));
            hands.push_back(static_cast<int>(random() % 90));
        }
        std::size_t asked = 0;
        const HandOf hand_of = [&](std::size_t at) {
            ++asked;
            return std::optional(hands[at]);
        };
        NextGoal one;
        one.picks = 1;
        const auto picks = pick_next(tunes, learner(), {}, one, hand_of);
        std::size_t best = 0;
        const auto rank = [&](std::size_t at) {
            repertoire::Load load = repertoire::load_of(tunes[at], learner());
            load.hand = hands[at];
            return std::tuple(repertoire::weigh(load, one.weights), tunes[at].folded_title);
        };
        for (std::size_t at = 1; at < tunes.size(); ++at)
            if (rank(at) < rank(best)) best = at;
        REQUIRE(picks.front().tune == best);
        CHECK(asked <= tunes.size());
    }
}
