#include "repertoire/ladder.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>

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
                            const std::set<repertoire::Figure>& bars) {
    const LoadWeights weights;
    const auto fresh = static_cast<std::int64_t>(tune.needed.without(have).size());
    std::int64_t to_learn = 0;
    for (const repertoire::Figure figure : tune.figures) to_learn += bars.contains(figure) ? 0 : 1;
    return 10 * ((weights[LoadPart::notes] + weights[LoadPart::strikes]) * fresh + weights[LoadPart::bars] * to_learn);
}

// Nothing where a stone brings nothing of the tune, or needs a note beyond it; the tune comes last.
std::optional<std::int64_t> squares_of(const std::vector<TuneMatter>& tunes, const std::vector<std::size_t>& rungs,
                                       music::NoteSet have) {
    const TuneMatter& top = tunes[rungs.back()];
    const music::NoteSet may_need = have | top.needed;
    std::set<repertoire::Figure> bars;
    std::int64_t squares = 0;
    std::int64_t left = points_by_hand(top, have, bars);
    for (const std::size_t at : rungs) {
        if (!tunes[at].needed.is_within(may_need)) return std::nullopt;
        const std::int64_t points = points_by_hand(tunes[at], have, bars);
        squares += points * points;
        have = have | tunes[at].needed;
        bars.insert(tunes[at].figures.begin(), tunes[at].figures.end());
        const std::int64_t now = points_by_hand(top, have, bars);
        if (at != rungs.back() && now == left) return std::nullopt;
        left = now;
    }
    return squares;
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

TEST_CASE("a ladder: never worse than any other of at most three stones", "[repertoire]") {
    std::mt19937 random(11);
    const char* const notes[] = {"C5", "C#5", "G#4", "F4"};
    for (int round = 0; round < 60; ++round) {
        std::vector<TuneMatter> tunes;
        for (std::int64_t id = 0; id < 7; ++id) {
            std::string needed = "D4";
            for (const char* note : notes)
                if (random() % 2) needed += std::string(" ") + note;
            std::vector<repertoire::Figure> figures;
            for (repertoire::Figure figure = 0; figure < 10; ++figure)
                if (random() % 3 == 0) figures.push_back(figure);
            tunes.push_back(piece(id, needed.c_str(), std::move(figures)));
        }
        tunes[0] = piece(0, "D4 C5 C#5 G#4 F4", tunes[0].figures);
        const Ladder ladder = find_ladder(tunes, 0, learner("D4"), {});
        std::vector<std::size_t> rungs;
        for (const repertoire::Rung& rung : ladder.rungs) rungs.push_back(rung.tune);
        const music::NoteSet have = music::read_notes("D4");
        std::int64_t best = *squares_of(tunes, {0}, have);
        const auto try_out = [&](const std::vector<std::size_t>& order) {
            if (std::set<std::size_t>(order.begin(), order.end()).size() == order.size())
                best = std::min(best, squares_of(tunes, order, have).value_or(best));
        };
        for (std::size_t a = 1; a < tunes.size(); ++a) {
            try_out({a, 0});
            for (std::size_t b = 1; b < tunes.size(); ++b) {
                try_out({a, b, 0});
                for (std::size_t c = 1; c < tunes.size(); ++c) try_out({a, b, c, 0});
            }
        }
        const auto found = squares_of(tunes, rungs, have);
        REQUIRE(found);
        REQUIRE(*found == best);
    }
}
