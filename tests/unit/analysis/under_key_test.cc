#include "analysis/under_key.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "../abc/written.h"
#include "analysis/analyse.h"
#include "analysis/tune_end.h"

namespace {

tune::Setting setting_in(const std::string& key, const std::string& music) {
    return written::AbcFile(written::tune_of(music, "", key)).only();
}

std::vector<int> notes_under(const music::Melody& melody, std::size_t turn) {
    std::vector<int> notes;
    for (const music::NoteHead& head : analysis::under_key(melody, analysis::keys_in_turn(melody).at(turn)).heads)
        notes.push_back(head.midi);
    return notes;
}

// Invented; the first part plainly in G, the second in Bb.
const std::string kInG = "|:G2BG d2BG|A2cA F2AF|G2BG d2ge|d2AF G4:|\n";
const std::string kInBb = "|:B2dB f2dB|c2ec A2cA|B2dB f2ba|f2cA B4:|\n";

}  // namespace

TEST_CASE("under key: the keys a tune stands in, in turn", "[analysis][under_key]") {
    const music::Melody melody = setting_in("G", "F4G4|[K:D]F4c4||\n[K:G]F8|c8|]").melody;
    CHECK(analysis::keys_in_turn(melody).size() == 2);
    CHECK(notes_under(melody, 0) == std::vector{66, 67, 66, 72});
    CHECK(notes_under(melody, 1) == std::vector{66, 73});
    CHECK(analysis::keys_in_turn(setting_in("G", "G8|[K:G]A8|]").melody).size() == 1);
    CHECK(analysis::keys_in_turn(setting_in("G", "G8|[K:Em]E8|]").melody).size() == 2);
    CHECK(analysis::keys_in_turn(setting_in("G", "z8|[K:D]z8|]").melody).empty());
}

TEST_CASE("under key: bars, parts and marks stay in their places", "[analysis][under_key]") {
    const music::Melody melody = setting_in("G", "G4 [K:D]A4|[K:G]B8|c8H||[K:D]d8|e8|]").melody;
    const music::Melody under = analysis::under_key(melody, analysis::keys_in_turn(melody).front());
    REQUIRE(under.bars.size() == 3);
    CHECK(under.sounds.at(1).bar == 1);
    CHECK(under.bars.at(1).first_sound == 1);
    CHECK(under.bars.at(2).thick_after);
    REQUIRE(under.order.size() == 1);
    CHECK(under.order.front().bar == 2);
    CHECK(analysis::find_tune_end(under) == 3);
}

TEST_CASE("under key: a tune is in the key of its first part, the others in theirs", "[analysis][under_key]") {
    const tune::TuneFacts facts = analysis::analyse(setting_in("G", kInG + "K:Bb\n" + kInBb));
    REQUIRE(facts.key);
    CHECK(music::to_string(facts.key->headline()) == "G major");
    REQUIRE(facts.keys_in_turn.size() == 2);
    CHECK(music::to_string(facts.keys_in_turn[1]) == "Bb major");
    REQUIRE(facts.differing_part_keys.size() == 2);
    CHECK(music::to_string(facts.differing_part_keys[1]) == "Bb major");
    CHECK(analysis::analyse(setting_in("G", kInG)).keys_in_turn.empty());
    // K: of the first part names what its notes bear out, whatever comes behind.
    const tune::TuneFacts other = analysis::analyse(setting_in("Dmix", kInG + "K:Bb\n" + kInBb + kInBb + kInBb));
    CHECK(music::to_string(other.key->headline()).substr(0, 2) == "G ");
}
