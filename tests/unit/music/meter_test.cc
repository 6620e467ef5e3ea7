#include "music/meter.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using music::Duration;
using music::Meter;

namespace {

Meter fraction(int beats, int unit) {
    return {Meter::Kind::fraction, static_cast<std::uint16_t>(beats), static_cast<std::uint16_t>(unit)};
}

// The strong places of a bar on a grid of semiquavers, as numbers of semiquavers from the bar line.
std::string strong_semiquavers(const Meter& meter) {
    std::string places;
    for (int sixteenth = 0; Duration(sixteenth, 16) < meter.bar_length(); ++sixteenth)
        if (music::is_strong(meter, Duration(sixteenth, 16)))
            places += (places.empty() ? "" : " ") + std::to_string(sixteenth);
    return places;
}

}  // namespace

TEST_CASE("meter: a bar lasts its beats", "[music][meter]") {
    for (int beats = 1; beats <= 24; ++beats)
        for (const int unit : {1, 2, 4, 8, 16, 32}) {
            CHECK(fraction(beats, unit).bar_length() == Duration(beats, unit));
            CHECK(music::to_string(fraction(beats, unit)) == std::to_string(beats) + "/" + std::to_string(unit));
        }
    CHECK(music::to_string(Meter{Meter::Kind::common, 4, 4}) == "4/4");
    CHECK(music::to_string(Meter{Meter::Kind::cut, 2, 2}) == "2/2");
    CHECK(music::to_string(Meter{}) == "none");
    CHECK(Meter{}.is_free());
}

TEST_CASE("meter: only 6/8, 9/8 and 12/8 are compound", "[music][meter]") {
    // Source: ABC standard 2.1, section 4.13 (the meters in which a plain tuplet takes the time of three).
    std::set<std::string> compound;
    for (int beats = 1; beats <= 64; ++beats)
        for (const int unit : {1, 2, 4, 8, 16, 32})
            if (fraction(beats, unit).is_compound()) compound.insert(music::to_string(fraction(beats, unit)));
    CHECK(compound == std::set<std::string>{"6/8", "9/8", "12/8"});
}

TEST_CASE("meter: strong places are where the foot comes down", "[music][meter]") {
    // Source: common practice, no source.
    CHECK(strong_semiquavers({Meter::Kind::common, 4, 4}) == "0 8");
    CHECK(strong_semiquavers({Meter::Kind::cut, 2, 2}) == "0 8");
    CHECK(strong_semiquavers(fraction(4, 4)) == "0 8");
    CHECK(strong_semiquavers(fraction(2, 4)) == "0 4");
    CHECK(strong_semiquavers(fraction(3, 4)) == "0");
    CHECK(strong_semiquavers(fraction(3, 8)) == "0");
    CHECK(strong_semiquavers(fraction(3, 2)) == "0 8 16");
    CHECK(strong_semiquavers(fraction(6, 8)) == "0 6");
    CHECK(strong_semiquavers(fraction(9, 8)) == "0 6 12");
    CHECK(strong_semiquavers(fraction(12, 8)) == "0 6 12 18");
}

TEST_CASE("meter: between the beats nothing is strong", "[music][meter]") {
    CHECK_FALSE(music::is_strong(fraction(4, 4), Duration(1, 3)));
    CHECK_FALSE(music::is_strong(fraction(6, 8), Duration(1, 4)));
    CHECK_FALSE(music::is_strong(fraction(2, 4), Duration(3, 16)));
}

TEST_CASE("meter: without one only the first note of a bar is strong", "[music][meter]") {
    CHECK(music::is_strong(Meter{}, Duration()));
    CHECK_FALSE(music::is_strong(Meter{}, Duration(1, 2)));
}
