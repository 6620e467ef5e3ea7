#include "planner/ease.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "obvious.h"

using obvious::note_set;
using planner::is_easier;

TEST_CASE("ease: a natural before an accidental, wherever they lie", "[planner][ease]") {
    CHECK(is_easier(84, 61, note_set({60})));  // C6 before C#4 beside C4
    CHECK_FALSE(is_easier(61, 84, note_set({60})));
    for (const int natural : {60, 62, 64, 65, 67, 69, 71})
        for (const int accidental : {61, 63, 66, 68, 70}) CHECK(is_easier(natural, accidental, {}));
}

TEST_CASE("ease: the smaller leap, then the lower note", "[planner][ease]") {
    CHECK(is_easier(64, 60, note_set({65})));   // E4 before C4 beside F4
    CHECK(is_easier(60, 64, note_set({62})));   // both a tone from D4: the lower
    CHECK(is_easier(60, 64, {}));               // nothing known: the lower
    CHECK(is_easier(127, 0, note_set({125})));  // G9 before C-1
}

TEST_CASE("ease: groups by size, then note by note", "[planner][ease]") {
    CHECK(is_easier(note_set({61}), note_set({60, 62}), {}));
    CHECK(is_easier(note_set({60, 62}), note_set({60, 61}), {}));
    CHECK_FALSE(is_easier(note_set({60, 61}), note_set({60, 61}), {}));
}

TEST_CASE("ease: orders all notes in a row", "[planner][ease]") {
    const music::NoteSet known = note_set({62, 69});
    for (int a = 48; a < 84; ++a)
        for (int b = 48; b < 84; ++b) {
            CHECK((is_easier(a, b, known) || is_easier(b, a, known)) == (a != b));
            CHECK_FALSE((is_easier(a, b, known) && is_easier(b, a, known)));
            for (int c = 48; c < 84; ++c)
                if (is_easier(a, b, known) && is_easier(b, c, known)) REQUIRE(is_easier(a, c, known));
        }
}
