#include "syllabus/timetable.h"

#include <catch2/catch.hpp>
#include <functional>
#include <optional>
#include <random>

using syllabus::Cost;
using syllabus::Criterion;
using syllabus::Frame;
using syllabus::Piece;
using syllabus::Timetable;
using syllabus::Use;

namespace {

Frame frame_of(int lessons, std::size_t steps) {
    Frame frame;
    frame.places.assign(static_cast<std::size_t>(lessons), {1, true});
    frame.steps = steps;
    return frame;
}

Piece piece(std::size_t opens, Use use, std::optional<int> rhythm, std::int64_t hardness = 0) {
    return {opens, use, rhythm, 0, hardness, false, std::nullopt, syllabus::Promise::none};
}

// Each criterion by its definition, from the whole timetable.
Cost slow_cost(const Frame& frame, const std::vector<Timetable::Lesson>& lessons) {
    Cost cost;
    struct New {
        std::size_t lesson, steps, piece;
    };
    std::vector<New> news;
    std::vector<std::size_t> brought;
    for (std::size_t lesson = 0; lesson < lessons.size(); ++lesson) {
        if (lessons[lesson].brings_step) {
            brought.push_back(lesson);
            cost[Criterion::lateness] += static_cast<std::int64_t>(lesson);
        }
        for (const std::size_t at : lessons[lesson].new_tunes) news.push_back({lesson, brought.size(), at});
        cost[Criterion::empty_places] +=
            frame.places[lesson].new_tunes - static_cast<int>(lessons[lesson].new_tunes.size());
    }
    cost[Criterion::notes_not_taught] = -static_cast<std::int64_t>(brought.size());
    for (const New& one : news) {
        cost[Criterion::not_asked_for] -= frame.pieces[one.piece].asked_for;
        cost[Criterion::hardness] += frame.pieces[one.piece].hardness;
        cost[Criterion::tunes_late] += static_cast<std::int64_t>(one.lesson);
    }
    for (std::size_t lesson = 0, step = 0; lesson < lessons.size(); ++lesson) {
        if (!lessons[lesson].brings_step) continue;
        ++step;
        bool is_used = false;
        for (const New& one : news)
            is_used = is_used || (one.lesson == lesson && frame.pieces[one.piece].opens == step &&
                                  frame.pieces[one.piece].use != Use::none);
        cost[Criterion::notes_alone] += is_used ? 0 : 1;
    }
    const std::size_t first_step = frame.before.since_step ? 0 : 1;
    for (std::size_t step = first_step; step <= brought.size(); ++step) {
        int users = step == 0 ? std::min(frame.before.tunes_since, 2) : 0;
        for (const New& one : news) {
            if (one.steps != step || users == 2) continue;
            const Piece& tune = frame.pieces[one.piece];
            const bool uses_it = tune.opens == step && tune.use != Use::none;
            if (!uses_it || tune.use != (users == 0 ? Use::seldom : Use::often)) ++cost[Criterion::out_of_turn];
            if (uses_it) ++users;
        }
        cost[Criterion::tunes_lacking] += 2 - users;
    }
    std::vector<std::optional<int>> rhythms(
        static_cast<std::size_t>(frame.before.rhythm ? std::min(frame.before.run, 2) : 0), frame.before.rhythm);
    for (const New& one : news) {
        rhythms.push_back(frame.pieces[one.piece].rhythm);
        const std::size_t at = rhythms.size() - 1;
        if (at >= 2 && rhythms[at] && rhythms[at] == rhythms[at - 1] && rhythms[at] == rhythms[at - 2])
            ++cost[Criterion::rhythm_runs];
    }
    for (std::size_t at = 0; at < frame.pieces.size(); ++at) {
        const Piece& must = frame.pieces[at];
        std::size_t came = lessons.size();
        for (const New& one : news)
            if (one.piece == at) came = one.lesson;
        if (came == lessons.size()) cost[Criterion::left_behind] += must.costs_left_behind();
        if (!must.is_must) continue;
        if (!must.must_by || came > *must.must_by || came == lessons.size()) ++cost[Criterion::wishes_missed];
        for (std::size_t lesson = must.must_by.value_or(0); lesson < came; ++lesson) ++cost[Criterion::wishes_late];
    }
    cost[Criterion::wishes_missed] += frame.missed_anyway;
    if (brought.size() < frame.steps_wanted)
        cost[Criterion::wishes_missed] += static_cast<std::int64_t>(frame.steps_wanted - brought.size());
    std::size_t begun = 0;
    for (const New& one : news)
        if (begun < frame.begin.size() && one.piece == frame.begin[begun]) ++begun;
    cost[Criterion::wishes_missed] += static_cast<std::int64_t>(frame.begin.size() - begun);
    return cost;
}

// Every timetable there is.
Cost slowest_best(const Frame& frame) {
    std::optional<Cost> best;
    std::vector<Timetable::Lesson> lessons;
    std::vector<bool> used(frame.pieces.size(), false);
    std::function<void(std::size_t)> open, fill;
    std::size_t steps = 0, begun = 0;
    int since = frame.before.since_step.value_or(1000);
    fill = [&](std::size_t lesson) {
        if (static_cast<int>(lessons[lesson].new_tunes.size()) < frame.places[lesson].new_tunes) {
            for (std::size_t at = 0; at < frame.pieces.size(); ++at) {
                if (used[at] || frame.pieces[at].opens > steps) continue;
                const bool begins = begun < frame.begin.size();
                if (begins && frame.begin[begun] != at) continue;
                used[at] = true;
                begun += begins ? 1 : 0;
                lessons[lesson].new_tunes.push_back(at);
                fill(lesson);
                lessons[lesson].new_tunes.pop_back();
                begun -= begins ? 1 : 0;
                used[at] = false;
            }
        }
        open(lesson + 1);
    };
    open = [&](std::size_t lesson) {
        if (lesson == frame.places.size()) {
            const Cost cost = slow_cost(frame, lessons);
            if (!best || cost < *best) best = cost;
            return;
        }
        const int before = since;
        lessons.emplace_back();
        since = before + 1;
        fill(lesson);
        if (frame.places[lesson].may_bring_notes && steps < frame.steps && before >= frame.notes_every) {
            lessons[lesson].brings_step = true;
            ++steps;
            since = 1;
            fill(lesson);
            --steps;
        }
        since = before;
        lessons.pop_back();
    };
    open(0);
    return *best;
}

Frame some_frame(std::mt19937& random) {
    const auto up_to = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most + 1)); };
    const int lessons = 2 + up_to(2);  // by itself: arguments may be evaluated in any order
    Frame frame = frame_of(lessons, static_cast<std::size_t>(up_to(2)));
    for (auto& place : frame.places) {
        place.new_tunes = up_to(5) == 0 ? 0 : up_to(4) == 0 ? 2 : 1;
        place.may_bring_notes = place.new_tunes > 0;
    }
    frame.notes_every = 1 + up_to(1);
    const int pieces = up_to(6);
    for (int at = 0; at < pieces; ++at) {
        Piece one;
        one.opens = static_cast<std::size_t>(up_to(static_cast<int>(frame.steps) + 1));
        one.use = static_cast<Use>(up_to(2));
        if (up_to(4) != 0) one.rhythm = up_to(1);
        one.asked_for = up_to(3) == 0 ? up_to(3) : 0;
        one.hardness = up_to(2);
        if (up_to(4) == 0) one.promised = up_to(1) == 0 ? syllabus::Promise::planned : syllabus::Promise::lost;
        one.is_must = up_to(4) == 0;
        if (one.is_must && up_to(3) != 0)
            one.must_by = static_cast<std::size_t>(up_to(static_cast<int>(frame.places.size()) - 1));
        frame.pieces.push_back(one);
    }
    if (up_to(3) == 0) frame.steps_wanted = static_cast<std::size_t>(up_to(static_cast<int>(frame.steps)));
    if (pieces > 0 && up_to(4) == 0) frame.begin.push_back(0);
    if (up_to(2) == 0) {
        frame.before.since_step = 1 + up_to(1);
        frame.before.tunes_since = up_to(2);
    }
    if (up_to(2) == 0) frame.before.rhythm = up_to(1), frame.before.run = 1 + up_to(1);
    return frame;
}

}  // namespace

TEST_CASE("timetable: as good as the best of all timetables", "[syllabus]") {
    std::mt19937 random(11);  // any seed does
    for (int round = 0; round < 1500; ++round) {
        const Frame frame = some_frame(random);
        const Timetable found = syllabus::find_timetable(frame);
        INFO("round " << round);
        REQUIRE(found.lessons.size() == frame.places.size());
        CHECK(found.cost == slow_cost(frame, found.lessons));
        CHECK(found.is_optimal());
        CHECK(found.cost == slowest_best(frame));
    }
}

TEST_CASE("timetable: a bound is none that a timetable undercuts, however few states there are", "[syllabus]") {
    std::mt19937 random(12);
    int gaps = 0;
    for (int round = 0; round < 1500; ++round) {
        Frame frame = some_frame(random);
        frame.max_states = 1;
        const Timetable found = syllabus::find_timetable(frame);
        const Cost best = slowest_best(frame);
        CHECK(found.bound <= best);
        CHECK(found.cost >= best);
        gaps += found.is_optimal() ? 0 : 1;
    }
    CHECK(gaps > 0);
}

TEST_CASE("timetable: a note, a tune where it is seldom, one where it is often, the next note", "[syllabus]") {
    Frame frame = frame_of(4, 2);
    frame.pieces = {piece(0, Use::none, 0), piece(1, Use::often, 1), piece(1, Use::seldom, 0), piece(2, Use::seldom, 1),
                    piece(2, Use::often, 0)};
    const Timetable found = syllabus::find_timetable(frame);
    CHECK(found.lessons == std::vector<Timetable::Lesson>{{true, {2}}, {false, {1}}, {true, {3}}, {false, {4}}});
    CHECK(found.is_optimal());
}

TEST_CASE("timetable: no third tune of a rhythm running where another will do", "[syllabus]") {
    Frame frame = frame_of(3, 0);
    frame.pieces = {piece(0, Use::none, 0), piece(0, Use::none, 0), piece(0, Use::none, 0), piece(0, Use::none, 1, 4)};
    const Timetable found = syllabus::find_timetable(frame);
    CHECK(found.cost[Criterion::rhythm_runs] == 0);
    CHECK(found.cost[Criterion::hardness] == 4);
    frame.pieces.pop_back();
    CHECK(syllabus::find_timetable(frame).cost[Criterion::rhythm_runs] == 1);
}

TEST_CASE("timetable: of those that must come in one lesson the other comes later, and pushes out none in time",
          "[syllabus]") {
    Frame frame = frame_of(3, 0);
    frame.places.pop_back();
    frame.pieces = {piece(0, Use::none, 0), piece(0, Use::none, 1), piece(0, Use::none, 2)};
    for (Piece& must : frame.pieces) must.is_must = true;
    frame.pieces[0].must_by = frame.pieces[1].must_by = 0;
    frame.pieces[2].must_by = 1;
    Timetable found = syllabus::find_timetable(frame);
    CHECK(found.cost[Criterion::wishes_missed] == 1);
    CHECK(found.cost[Criterion::wishes_late] == 2);
    CHECK(found.lessons[1].new_tunes == std::vector<std::size_t>{2});
    frame.places.emplace_back();
    found = syllabus::find_timetable(frame);
    CHECK(found.cost[Criterion::wishes_missed] == 1);
    CHECK(found.cost[Criterion::wishes_late] == 2);
    CHECK(found.lessons[2].new_tunes.size() == 1);
    CHECK(found.is_optimal());
}

TEST_CASE("timetable: a tune that missed its lesson comes in the next one", "[syllabus]") {
    Frame frame = frame_of(4, 0);
    for (int at = 0; at < 6; ++at) frame.pieces.push_back(piece(0, Use::none, at));
    frame.pieces[4].is_must = frame.pieces[5].is_must = true;
    frame.pieces[4].must_by = frame.pieces[5].must_by = 0;
    const Timetable found = syllabus::find_timetable(frame);
    CHECK(found.lessons[0].new_tunes[0] + found.lessons[1].new_tunes[0] == 4 + 5);
}

TEST_CASE("timetable: where tunes are few, the places left empty stand at the end", "[syllabus]") {
    Frame frame = frame_of(5, 0);
    frame.pieces = {piece(0, Use::none, 0), piece(0, Use::none, 0)};
    const Timetable found = syllabus::find_timetable(frame);
    CHECK(found.lessons[0].new_tunes.size() == 1);
    CHECK(found.lessons[1].new_tunes.size() == 1);
    CHECK(found.cost[Criterion::empty_places] == 3);
    CHECK(found.is_optimal());
}

TEST_CASE("timetable: a note that is wished for comes although it opens nothing", "[syllabus]") {
    Frame frame = frame_of(2, 1);
    frame.pieces = {piece(0, Use::none, 0), piece(0, Use::none, 1)};
    CHECK(syllabus::find_timetable(frame).cost[Criterion::notes_not_taught] == 0);
    frame.steps_wanted = 1;
    CHECK(syllabus::find_timetable(frame).cost[Criterion::notes_not_taught] == -1);
}

TEST_CASE("timetable: a tune of a lost lesson goes before an easier one", "[syllabus]") {
    Frame frame = frame_of(1, 0);
    frame.pieces = {piece(0, Use::none, 0, 5), piece(0, Use::none, 0)};
    frame.pieces[0].promised = syllabus::Promise::planned;
    CHECK(syllabus::find_timetable(frame).lessons[0].new_tunes == std::vector<std::size_t>{0});
}

TEST_CASE("timetable: a note comes with a tune that uses it", "[syllabus]") {
    Frame frame = frame_of(2, 1);
    frame.places[1].may_bring_notes = false;
    frame.pieces = {piece(0, Use::none, 0), piece(1, Use::often, 1)};
    const Timetable found = syllabus::find_timetable(frame);
    CHECK(found.lessons == std::vector<Timetable::Lesson>{{true, {1}}, {false, {0}}});
    CHECK(found.cost[Criterion::notes_alone] == 0);
}

TEST_CASE("timetable: the same frame gives the same answer", "[syllabus]") {
    std::mt19937 random(13);
    for (int round = 0; round < 50; ++round) {
        const Frame frame = some_frame(random);
        CHECK(syllabus::find_timetable(frame).lessons == syllabus::find_timetable(frame).lessons);
    }
}

TEST_CASE("timetable: no lesson to plan", "[syllabus]") {
    Frame frame;
    frame.pieces = {piece(0, Use::none, 0)};
    frame.pieces.front().is_must = true;
    CHECK(syllabus::find_timetable(frame).cost[Criterion::wishes_missed] == 1);
}

TEST_CASE("timetable: the bound knows that a promised tune may be harder than the next of its kind", "[syllabus]") {
    Frame frame = frame_of(2, 0);
    frame.pieces = {piece(0, Use::none, 0, 9), piece(0, Use::none, 0, 1), piece(0, Use::none, 0, 1)};
    frame.pieces[0].promised = syllabus::Promise::planned;
    for (const std::size_t states : {std::size_t{1}, frame.max_states}) {
        frame.max_states = states;
        const Timetable found = syllabus::find_timetable(frame);
        CHECK(found.cost == slowest_best(frame));
        CHECK(found.bound <= found.cost);
    }
}
