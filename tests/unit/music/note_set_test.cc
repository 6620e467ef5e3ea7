#include "music/note_set.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iterator>
#include <random>
#include <set>
#include <vector>

using music::NoteSet;
using Plain = std::set<int>;

namespace {

NoteSet note_set(const Plain& numbers) {
    NoteSet notes;
    for (const int midi : numbers) notes.add(midi);
    return notes;
}

std::vector<int> listed(const Plain& numbers) { return {numbers.begin(), numbers.end()}; }

Plain random_numbers(std::mt19937& random) {
    std::uniform_int_distribution<int> size(0, 40), midi(0, 127);
    Plain numbers;
    for (int left = size(random); left > 0; --left) numbers.insert(midi(random));
    return numbers;
}

}  // namespace

TEST_CASE("note set: it is a set of numbers, whatever is asked of it", "[music][note_set]") {
    std::mt19937 random(7);
    for (int round = 0; round < 3000; ++round) {
        const Plain a = random_numbers(random);
        Plain b = random_numbers(random);
        if (round % 5 == 0) b.insert(a.begin(), a.end());  // so that subsets come up too
        const NoteSet x = note_set(a), y = note_set(b);
        Plain both, shared, only;
        std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::inserter(both, both.end()));
        std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::inserter(shared, shared.end()));
        std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::inserter(only, only.end()));
        REQUIRE(x.midi_numbers() == listed(a));
        REQUIRE((x | y).midi_numbers() == listed(both));
        REQUIRE((x & y).midi_numbers() == listed(shared));
        REQUIRE(x.without(y).midi_numbers() == listed(only));
        REQUIRE(x.is_within(y) == std::includes(b.begin(), b.end(), a.begin(), a.end()));
        REQUIRE((x == y) == (a == b));
        REQUIRE(x.size() == static_cast<int>(a.size()));
        REQUIRE(x.empty() == a.empty());
        if (a.empty()) continue;
        REQUIRE(x.lowest() == *a.begin());
        REQUIRE(x.highest() == *a.rbegin());
        for (int midi = 0; midi < music::kMidiNotes; ++midi) REQUIRE(x.has(midi) == (a.count(midi) > 0));
    }
}

TEST_CASE("note set: every single note is itself", "[music][note_set]") {
    for (int midi = 0; midi < music::kMidiNotes; ++midi) {
        NoteSet one;
        one.add(midi);
        one.add(midi);
        CHECK(one.size() == 1);
        CHECK(one.lowest() == midi);
        CHECK(one.highest() == midi);
        CHECK(NoteSet(one.low(), one.high()) == one);
        CHECK((midi < 64 ? one.high() : one.low()) == 0);
    }
}
