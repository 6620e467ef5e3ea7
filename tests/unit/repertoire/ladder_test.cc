#include "repertoire/ladder.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "music/note_expression.h"

using repertoire::find_ladder;
using repertoire::Ladder;
using repertoire::Learner;
using repertoire::LoadPart;
using repertoire::LoadWeights;
using repertoire::TuneMatter;

namespace {

TuneMatter piece(std::int64_t id, const char* notes, std::vector<repertoire::Figure> figures) {
    TuneMatter matter;
    matter.id = {id};
    matter.folded_title = "tune " + std::to_string(100 + id);
    matter.needed = music::read_notes(notes);
    for (const int midi : matter.needed.midi_numbers()) matter.struck.emplace_back(midi, 1);
    matter.figures = std::move(figures);
    return matter;
}

std::vector<std::int64_t> ids(const std::vector<TuneMatter>& tunes, const Ladder& ladder) {
    std::vector<std::int64_t> ids;
    for (const repertoire::Rung& rung : ladder.rungs) ids.push_back(tunes[rung.tune].id.value);
    return ids;
}

Learner learner(const char* notes) {
    Learner learner;
    learner.have = music::read_notes(notes);
    return learner;
}

// By its definition: notes, strikes and bars that are new, in points.
std::int64_t points_by_hand(const TuneMatter& tune, const music::NoteSet& have,
                            const std::set<repertoire::Figure>& bars, const LoadWeights& weights) {
    std::int64_t points = 0;
    for (const auto& [midi, times] : tune.struck)
        if (!have.has(midi)) points += weights[LoadPart::notes] + weights[LoadPart::strikes] * times;
    for (const repertoire::Figure figure : tune.figures) points += bars.contains(figure) ? 0 : weights[LoadPart::bars];
    return 10 * points;
}

// Nothing where a stone brings nothing of the tune, or needs a note beyond it; the tune comes last.
std::optional<std::int64_t> squares_of(const std::vector<TuneMatter>& tunes, const std::vector<std::size_t>& rungs,
                                       const Learner& learner, const LoadWeights& weights) {
    const TuneMatter& top = tunes[rungs.back()];
    music::NoteSet have = learner.have;
    const music::NoteSet may_need = have | top.needed;
    std::set<repertoire::Figure> bars;
    for (const TuneMatter& tune : tunes)
        for (const repertoire::Figure figure : tune.figures)
            if (learner.bars.has(figure)) bars.insert(figure);
    std::int64_t squares = 0;
    std::int64_t left = points_by_hand(top, have, bars, weights);
    for (const std::size_t at : rungs) {
        if (!tunes[at].needed.is_within(may_need)) return std::nullopt;
        const std::int64_t points = points_by_hand(tunes[at], have, bars, weights);
        squares += points * points;
        have = have | tunes[at].needed;
        bars.insert(tunes[at].figures.begin(), tunes[at].figures.end());
        const std::int64_t now = points_by_hand(top, have, bars, weights);
        if (at != rungs.back() && now == left) return std::nullopt;
        left = now;
    }
    return squares;
}

// Of every ladder of at most three stones the best: least squares, then fewer stones, then by titles and ids.
std::vector<std::size_t> best_by_hand(const std::vector<TuneMatter>& tunes, std::size_t top, const Learner& learner,
                                      const LoadWeights& weights) {
    using Rank = std::tuple<std::int64_t, std::size_t, std::vector<std::pair<std::string, tune::TuneId>>>;
    std::optional<Rank> best;
    std::vector<std::size_t> found;
    const auto try_out = [&](std::vector<std::size_t> rungs) {
        if (std::set<std::size_t>(rungs.begin(), rungs.end()).size() < rungs.size()) return;
        const auto squares = squares_of(tunes, rungs, learner, weights);
        if (!squares) return;
        std::vector<std::pair<std::string, tune::TuneId>> names;
        for (const std::size_t at : rungs) names.emplace_back(tunes[at].folded_title, tunes[at].id);
        Rank rank{*squares, rungs.size(), std::move(names)};
        if (best && *best <= rank) return;
        best = std::move(rank);
        found = std::move(rungs);
    };
    try_out({top});
    for (std::size_t a = 0; a < tunes.size(); ++a) {
        try_out({a, top});
        for (std::size_t b = 0; b < tunes.size(); ++b) {
            try_out({a, b, top});
            for (std::size_t c = 0; c < tunes.size(); ++c) try_out({a, b, c, top});
        }
    }
    return found;
}

}  // namespace

TEST_CASE("a ladder: a stone for each new note, then the tune", "[repertoire]") {
    const std::vector<TuneMatter> tunes{piece(1, "D4 C5", {1}), piece(2, "D4 C5 C#5", {2}),
                                        piece(3, "D4 C5 C#5 G#4", {3}), piece(4, "D4 C5 F4", {4})};
    const Ladder ladder = find_ladder(tunes, 2, learner("D4"), {});
    CHECK(ids(tunes, ladder) == std::vector<std::int64_t>{1, 2, 3});  // 4 needs an F that the tune has not
    CHECK(ladder.rungs[0].brings == music::read_notes("C5"));
    CHECK(ladder.rungs[1].load.fresh == music::read_notes("C#5"));
    CHECK(ladder.rungs[2].load.fresh == music::read_notes("G#4"));
    CHECK(ladder.points_at_once == 10 * (3 * 11 + 2));
    CHECK(ladder.stones_possible == 2);
    CHECK(ladder.is_best);
}

TEST_CASE("a ladder: stones that share bars, and none where none helps", "[repertoire]") {
    const std::vector<TuneMatter> tunes{piece(1, "D4", {1, 2, 3, 4, 5, 6}), piece(2, "D4", {1, 2, 3}),
                                        piece(3, "D4", {9})};
    const Ladder ladder = find_ladder(tunes, 0, learner("D4"), {});
    CHECK(ids(tunes, ladder) == std::vector<std::int64_t>{2, 1});
    CHECK(ladder.rungs[0].shared_bars == 3);
    CHECK(ids(tunes, find_ladder(tunes, 2, learner("D4"), {})) == std::vector<std::int64_t>{3});
    // One bar of two costs as much by itself as it saves: 2 + 2 squared is more than 4 alone only for the square.
    const std::vector<TuneMatter> small{piece(1, "D4", {1, 2}), piece(2, "D4", {1, 7, 8})};
    CHECK(ids(small, find_ladder(small, 0, learner("D4"), {})) == std::vector<std::int64_t>{1});
}

TEST_CASE("a ladder: the best of all of at most three stones, equals by number, title and id", "[repertoire]") {
    std::mt19937 random(11);
    const char* const notes[] = {"C5", "C#5", "G#4", "F4"};
    std::size_t stones = 0;
    for (int round = 0; round < 600; ++round) {
        const bool has_many_equals = round % 2 == 0;
        LoadWeights weights;
        if (round % 3 == 0) weights.of[static_cast<std::size_t>(LoadPart::strikes)] = static_cast<int>(random() % 2);
        if (round % 5 == 0) weights.of[static_cast<std::size_t>(LoadPart::notes)] = static_cast<int>(random() % 3);
        if (round % 7 == 0) weights.of[static_cast<std::size_t>(LoadPart::bars)] = static_cast<int>(random() % 4);
        std::vector<TuneMatter> tunes;
        for (std::int64_t id = 0; id < 7; ++id) {
            std::string needed = "D4";
            for (const char* note : notes)
                if (random() % 2) needed += std::string(" ") + note;
            std::vector<repertoire::Figure> figures;
            for (repertoire::Figure figure = 0; figure < (has_many_equals ? 4U : 10U); ++figure)
                for (auto times = random() % 3; times > 1; --times)
                    figures.insert(figures.end(), 1 + random() % 2, figure);
            tunes.push_back(piece(id, needed.c_str(), std::move(figures)));
            if (has_many_equals) tunes.back().folded_title = random() % 2 ? "lamp" : "quay";
            for (auto& [midi, times] : tunes.back().struck)
                times = has_many_equals ? 1 : 1 + static_cast<int>(random() % 4);
        }
        std::vector<repertoire::Figure> of_top = tunes[0].figures;
        tunes[0] = piece(0, "D4 C5 C#5 G#4 F4", std::move(of_top));
        std::shuffle(tunes.begin(), tunes.end(), random);
        const auto top = static_cast<std::size_t>(
            std::find_if(tunes.begin(), tunes.end(), [](const TuneMatter& tune) { return tune.id.value == 0; }) -
            tunes.begin());
        Learner ina = learner("D4");
        if (round % 4 == 0) ina.bars.add(std::vector<repertoire::Figure>{1, 3});
        const Ladder ladder = find_ladder(tunes, top, ina, weights);
        std::vector<std::size_t> rungs;
        for (const repertoire::Rung& rung : ladder.rungs) rungs.push_back(rung.tune);
        CAPTURE(round);
        REQUIRE(ladder.is_best);
        REQUIRE(rungs == best_by_hand(tunes, top, ina, weights));
        stones += rungs.size() - 1;
    }
    CHECK(stones > 600);  // ladders of some height, not bare tunes
}

TEST_CASE("a ladder: among many stones small steps are tried, whatever wide ones take off", "[repertoire]") {
    // A hundred tunes bring all three notes at once, three bring one each.
    std::vector<TuneMatter> tunes{piece(0, "D4 C5 A5 B5", {1, 2, 3, 4})};
    for (std::int64_t id = 1; id <= 100; ++id)
        tunes.push_back(piece(id, "D4 C5 A5 B5", {1, 2, 3, 1000 + static_cast<repertoire::Figure>(id)}));
    tunes.push_back(piece(200, "D4 C5", {50}));
    tunes.push_back(piece(201, "D4 A5", {51}));
    tunes.push_back(piece(202, "D4 B5", {52}));
    CHECK(ids(tunes, find_ladder(tunes, 0, learner("D4"), {})) == std::vector<std::int64_t>{200, 201, 202, 0});
    CHECK(find_ladder(tunes, 0, learner("D4"), {}).is_best);
    CHECK_FALSE(find_ladder(tunes, 0, learner("D4"), {}, 100).is_best);
}
