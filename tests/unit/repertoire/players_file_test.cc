#include "repertoire/players_file.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"

using repertoire::FiledPlayer;
using repertoire::FiledTune;
using repertoire::read_players;
using tune::PlayerEvent;

namespace {

FiledPlayer ina() {
    FiledPlayer ina;
    ina.player.name = tune::read_player_name("In\xC3\xA1 \"the whistle\"");
    ina.player.instrument = "whistle-d";
    ina.player.notes = music::read_notes("D4 C#5 Bb4");
    FiledTune eels;
    eels.title = "Nine Eels; in a Bucket";
    eels.file = "market.abc";
    eels.number = "1";
    eels.said = {
        tune::TuneId{32},
        {{base::read_date("2027-01-12"), PlayerEvent::learning}, {base::read_date("2027-02-02"), PlayerEvent::shaky}},
        true,
        "too high,\nsays \\ Uli"};
    ina.tunes = {eels, {"", "", {}, {tune::TuneId{7}, {}, false, {}}}};
    return ina;
}

// A file of one player with one tune, a part of which is replaced.
std::string file_with(const std::string& part, const std::string& other) {
    std::string text = R"({"version":1,"players":[{"name":"Ina","instrument":null,"notes":["D4"],"tunes":[)"
                       R"({"id":1,"title":"Eels","events":[{"day":"2027-01-12","event":"known"}]}]}]})";
    return text.replace(text.find(part), part.size(), other);
}

}  // namespace

TEST_CASE("players file: what is written is read back", "[repertoire][players_file]") {
    FiledPlayer uli;
    uli.player.name = tune::read_player_name("Uli");
    const std::vector<FiledPlayer> players{ina(), uli};
    CHECK(read_players(repertoire::write_players(players)) == players);
    CHECK(read_players(repertoire::write_players({})).empty());
}

TEST_CASE("players file: members it does not know are passed over, and optional ones may be missing",
          "[repertoire][players_file]") {
    const auto players = read_players(file_with("\"notes\":[\"D4\"]", "\"shoe_size\":38"));
    REQUIRE(players.size() == 1);
    CHECK_FALSE(players[0].player.notes);
    CHECK(players[0].tunes.front().said.events.size() == 1);
}

TEST_CASE("players file: what cannot be understood is told in a sentence, with the place",
          "[repertoire][players_file]") {
    const auto fault = [](const std::string& text) {
        try {
            read_players(text);
        } catch (const repertoire::PlayersFileFault& error) {
            return std::string(error.what());
        }
        return std::string("no fault");
    };
    CHECK(fault("") == "this is no JSON (byte 1)");
    CHECK(fault(R"({"version":1e400,"players":[]})") ==
          "this is no file of players: it has a number that is too large");
    CHECK(fault("[1]") == "the file has no \"version\"");
    CHECK(fault(file_with(":1,", ":2,")) == "its \"version\" is 2, and this gamut reads version 1");
    CHECK(fault(file_with("\"players\"", "\"people\"")) == "the file has no \"players\"");
    CHECK(fault(file_with("\"Ina\"", "7")) == "a player: \"name\" must be a text");
    CHECK(fault(file_with("\"Ina\"", "\" \"")) == "a player's name cannot be empty");
    CHECK(fault(file_with("\"D4\"", "\"H4\"")) == "Ina: \"H4\" is no note such as \"C#5\"");
    CHECK(fault(file_with("01-12", "02-30")) == "Ina, \"Eels\": there is no day 2027-02-30 in the calendar");
    CHECK(fault(file_with("\"known\"", "\"solid\"")) == "Ina, \"Eels\": \"solid\" is nothing that happens to a tune");
    CHECK(fault(file_with("}]}]}]}", "}]}]},{\"name\":\"INA\",\"tunes\":[]}]}")) == "it names \"INA\" twice");
    CHECK(fault(std::string(100000, '[')) == "this is no file of players: brackets go too deep");
    CHECK(fault(R"({"version":1,"players":[7]})") == "a player has no \"name\"");
    CHECK(fault(file_with("\"events\":[{", "\"events\":[7,{")) == "Ina, \"Eels\" has no \"event\"");
}
