#include "tune/player.h"

#include <catch2/catch.hpp>

using tune::DatedEvent;
using tune::PlayerEvent;
using tune::PlayerTune;
using tune::read_player_name;
using tune::TuneState;

namespace {

base::Date day(const char* text) { return base::read_date(text); }

}  // namespace

TEST_CASE("player: a name is kept as written, and compared without case and accents", "[tune][player]") {
    CHECK(read_player_name("  Ina  Marsh ").text == "Ina Marsh");
    CHECK(read_player_name("In\xC3\xA1").folded == "ina");
    CHECK(read_player_name("O'Lli \"the bow\"").text == "O'Lli \"the bow\"");
    CHECK(read_player_name("\xF0\x9F\x8E\xBB Uli").text == "\xF0\x9F\x8E\xBB Uli");  // a fiddle
}

TEST_CASE("player: what is no name is refused in a sentence", "[tune][player]") {
    CHECK_THROWS_WITH(read_player_name(" "), "a player's name cannot be empty");
    CHECK_THROWS_WITH(read_player_name("I\nna"), "a player's name cannot have control characters in it");
    CHECK_THROWS_WITH(read_player_name("\xFF"), "a player's name must be UTF-8");
    CHECK_NOTHROW(read_player_name(std::string(60, 'x')));
    CHECK_THROWS_WITH(read_player_name(std::string(61, 'x')), "a player's name has at most 60 characters, not 61");
}

TEST_CASE("player: words of states and events", "[tune][player]") {
    for (const TuneState state : {TuneState::learning, TuneState::known, TuneState::rusty})
        CHECK(tune::parse_state(tune::state_token(state)) == state);
    for (const char* token : {"learning", "known", "rusty", "forgotten", "played", "shaky"})
        CHECK(tune::event_token(tune::parse_event(token).value()) == token);
    CHECK(!tune::parse_state("played"));
    CHECK(!tune::parse_state("forgotten"));
    CHECK(!tune::parse_event("solid"));
}

TEST_CASE("player: the last that says so decides the state of a tune", "[tune][player]") {
    PlayerTune eels{tune::TuneId{1}, {}, false, {}};
    CHECK(!tune::state_of(eels));
    eels.events = {{day("2027-01-12"), PlayerEvent::learning}, {day("2027-02-02"), PlayerEvent::known}};
    CHECK(tune::state_of(eels) == TuneState::known);
    CHECK(tune::since(eels) == day("2027-02-02"));
    CHECK(tune::last_played(eels) == day("2027-02-02"));
    eels.events.push_back({day("2027-03-02"), PlayerEvent::shaky});
    CHECK(tune::state_of(eels) == TuneState::known);
    CHECK(tune::since(eels) == day("2027-02-02"));
    CHECK(tune::last_played(eels) == day("2027-03-02"));
    eels.events.push_back({day("2027-03-03"), PlayerEvent::forgotten});
    CHECK(!tune::state_of(eels));
    CHECK(!tune::since(eels));
}

TEST_CASE("player: a tune is taken up when it is first learnt or known, and anew after it was forgotten", "[tune]") {
    PlayerTune eels;
    CHECK(!tune::taken_up(eels));
    eels.events = {{day("2027-01-05"), PlayerEvent::rusty}};
    CHECK(!tune::taken_up(eels));
    eels.events.push_back({day("2027-01-12"), PlayerEvent::learning});
    eels.events.push_back({day("2027-02-02"), PlayerEvent::known});
    CHECK(tune::taken_up(eels) == day("2027-01-12"));
    eels.events.push_back({day("2027-06-01"), PlayerEvent::rusty});
    eels.events.push_back({day("2027-06-08"), PlayerEvent::played});
    CHECK(tune::taken_up(eels) == day("2027-01-12"));
    eels.events.push_back({day("2027-07-01"), PlayerEvent::forgotten});
    CHECK(!tune::taken_up(eels));
    eels.events.push_back({day("2027-07-01"), PlayerEvent::known});
    CHECK(tune::taken_up(eels) == day("2027-07-01"));
}
