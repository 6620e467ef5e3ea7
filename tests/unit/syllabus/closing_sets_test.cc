#include "syllabus/closing_sets.h"

#include <catch2/catch.hpp>

#include "lessons.h"
#include "syllabus/hardness.h"

namespace {

std::vector<std::string> sets_of(const std::vector<std::string>& rhythms) {
    std::vector<syllabus::Lesson> made;
    for (std::size_t at = 0; at < rhythms.size(); ++at) {
        syllabus::Lesson lesson;
        lesson.tunes.push_back(
            lessons::tune(static_cast<std::int64_t>(at), std::string(1, static_cast<char>('A' + at)), rhythms[at]));
        made.push_back(lesson);
    }
    std::vector<std::string> sets;
    for (const syllabus::ClosingSet& set : syllabus::closing_sets(made)) {
        CHECK(set.seconds == 60 * static_cast<int>(set.tunes.size()));
        sets.push_back(set.rhythm + " " + lessons::titles(set.tunes));
    }
    return sets;
}

}  // namespace

TEST_CASE("closing sets: twos and threes of one rhythm, none left alone that need not be", "[syllabus]") {
    CHECK(sets_of({"jig", "reel", "jig"}) == std::vector<std::string>{"jig AC", "reel B"});
    CHECK(sets_of(std::vector<std::string>(4, "jig")) == std::vector<std::string>{"jig AB", "jig CD"});
    CHECK(sets_of(std::vector<std::string>(5, "jig")) == std::vector<std::string>{"jig ABC", "jig DE"});
    CHECK(sets_of(std::vector<std::string>(7, "jig")) == std::vector<std::string>{"jig ABC", "jig DE", "jig FG"});
    CHECK(sets_of({"", "", "jig"}) == std::vector<std::string>{" A", " B", "jig C"});
}

TEST_CASE("hardness: range, leap, different bars", "[syllabus]") {
    music::NoteSet octave, tenth;
    octave.add(62), octave.add(74);
    tenth.add(62), tenth.add(78);
    CHECK(syllabus::hardness_of({}, std::nullopt, 0) == 0);
    CHECK(syllabus::hardness_of(octave, 7, 9) == 0);
    CHECK(syllabus::hardness_of(tenth, 7, 9) == 1);
    CHECK(syllabus::hardness_of(octave, 8, 9) == 1);
    CHECK(syllabus::hardness_of(octave, 7, 10) == 1);
    CHECK(syllabus::hardness_of(tenth, 12, 15) == 4);
}
