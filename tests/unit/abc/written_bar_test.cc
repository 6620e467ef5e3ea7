#include "abc/written_bar.h"

#include <catch2/catch.hpp>
#include <random>

#include "abc/read.h"
#include "music/key.h"
#include "music/pitch.h"

TEST_CASE("a bar written by us: signs where they are needed", "[abc]") {
    CHECK(abc::written_bar({60, 62, 64, 65}, 0) == "C D E F");
    CHECK(abc::written_bar({66, 66, 65, 66}, 0) == "^F F =F ^F");
    CHECK(abc::written_bar({66, 65, 66}, 1) == "F =F ^F");
    CHECK(abc::written_bar({66, 78}, 0) == "^F ^f");  // another octave is signed anew
    CHECK(abc::written_bar({65, 78}, 1) == "=F ^f");  // also where the signature would give it
    CHECK(abc::written_bar({59, 72, 84}, 0) == "B, c c'");
    CHECK(abc::written_bar({}, 3).empty());
}

TEST_CASE("what is written is read back, whatever the signature", "[abc]") {
    std::mt19937 random(7);  // any seed does
    for (int fifths = -6; fifths <= 6; ++fifths)
        for (int round = 0; round < 30; ++round) {
            std::vector<int> notes;
            for (int at = 0; at < 8; ++at) notes.push_back(30 + static_cast<int>(random() % 70));
            const std::string key = music::to_string(music::name_at_fifths(fifths));
            const base::SourceFile source("w.abc",
                                          "X:1\nT:t\nL:1/4\nK:" + key + "\n" + abc::written_bar(notes, fifths) + "|\n");
            base::Diagnostics diagnostics;
            const auto settings = abc::read_settings(source, diagnostics);
            REQUIRE(settings.size() == 1);
            std::vector<int> read;
            for (const music::NoteHead& head : settings[0].melody.heads) read.push_back(head.midi);
            CHECK(read == notes);
            CHECK(diagnostics.total() == 0);
        }
}

TEST_CASE("the signature that needs fewest signs", "[abc]") {
    CHECK(abc::plainest_signature({60, 62, 64}) == 0);
    CHECK(abc::plainest_signature({66, 62, 69}) == 1);
    CHECK(abc::plainest_signature({66, 73, 62}) == 2);
    CHECK(abc::plainest_signature({70, 65}) == -1);
    CHECK(abc::plainest_signature({}) == 0);
}
