#include "page/rungs.h"

#include <catch2/catch.hpp>
#include <random>

namespace {

music::NoteSet rung_notes(std::initializer_list<int> pitches) {
    music::NoteSet notes;
    for (const int pitch : pitches) notes.add(pitch);
    return notes;
}

}  // namespace

TEST_CASE("a rung tells the tunes that lack it alone", "[page]") {
    const std::vector<music::NoteSet> tunes{
        rung_notes({60, 62}), rung_notes({60, 62, 64}), rung_notes({60, 64, 65}), {}};
    const page::Rungs found = page::rungs_of(tunes, rung_notes({60, 62, 70}));
    CHECK(found.tunes == 3);
    CHECK(found.open == 1);
    CHECK(found.rungs ==
          std::vector<page::Rung>{
              {60, true, 3, 0}, {62, true, 2, 0}, {64, false, 2, 1}, {65, false, 1, 0}, {70, true, 0, 0}});
    CHECK(found.brackets == std::vector<page::Bracket>{{rung_notes({64, 65}), 1}});
}

TEST_CASE("a bracket joins notes of which one opens nothing alone, the best first and three at most", "[page]") {
    std::vector<music::NoteSet> tunes;
    for (int pair = 0; pair < 5; ++pair)
        for (int times = 0; times <= pair; ++times) tunes.push_back(rung_notes({60 + 2 * pair, 61 + 2 * pair}));
    tunes.push_back(rung_notes({68}));
    tunes.push_back(rung_notes({69}));  // both of the best pair open something alone
    tunes.push_back(rung_notes({80, 81, 82, 83}));
    const page::Rungs found = page::rungs_of(tunes, {});
    CHECK(found.brackets ==
          std::vector<page::Bracket>{{rung_notes({66, 67}), 4}, {rung_notes({64, 65}), 3}, {rung_notes({62, 63}), 2}});
}

TEST_CASE("what a rung opens is what putting it in opens", "[page]") {
    std::mt19937 random(21);
    for (int round = 0; round < 50; ++round) {
        std::vector<music::NoteSet> tunes(40);
        for (music::NoteSet& tune : tunes)
            for (int notes = 0; notes < 4; ++notes) tune.add(55 + static_cast<int>(random() % 9));
        const music::NoteSet have = rung_notes({55 + static_cast<int>(random() % 9), 57, 60});
        const page::Rungs before = page::rungs_of(tunes, have);
        for (const page::Rung& rung : before.rungs) {
            music::NoteSet more = have;
            more.add(rung.midi);
            CHECK(page::rungs_of(tunes, more).open - before.open == rung.opens);
        }
        for (const page::Bracket& bracket : before.brackets) {
            std::int64_t alone = 0;
            for (const page::Rung& rung : before.rungs)
                if (bracket.notes.has(rung.midi)) alone += rung.opens;
            const std::int64_t all = page::rungs_of(tunes, have | bracket.notes).open - before.open;
            CHECK(all >= alone + bracket.opens);
            if (bracket.notes.size() == 2) CHECK(all == alone + bracket.opens);
        }
    }
}
