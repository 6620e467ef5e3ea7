#include "page/kept_json.h"

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;

TEST_CASE("what is kept comes back from its JSON", "[page]") {
    people::Kept kept;
    kept.tags["wedding"] = "Wedding";
    kept.tunes_tagged.insert({4, "wedding"});
    kept.counts[2] = 7;
    kept.rhythms[3] = {"jig", 5};
    kept.keys[3] = {*music::parse_key("A dorian"), 6};
    kept.aliases["the kettle"] = {"The Kettle", 2};
    kept.verdicts[{1, 2}] = {false, 9};
    music::NoteSet notes;
    notes.add(62);
    notes.add(64);
    kept.players[1] = {"Ina \"the\" Née", "ina \"the\" nee", "whistle-d", notes};
    kept.players[2] = {"Bo", "bo", std::nullopt, std::nullopt};
    kept.events[1] = {1, 4, {base::read_date("2026-10-01"), tune::PlayerEvent::known}, std::nullopt};
    kept.events[2] = {2, 4, {base::read_date("2026-10-02"), tune::PlayerEvent::shaky}, 1};
    kept.wishes.insert({2, 3});
    kept.exclusions[{1, 5}] = "too \\ long";
    people::Kept back = page::read_kept(page::write_kept(kept));
    kept.aliases.begin()->second.text = "The Kettle";
    CHECK(back.tags == kept.tags);
    CHECK(back.tunes_tagged == kept.tunes_tagged);
    CHECK(back.counts == kept.counts);
    CHECK(back.rhythms == kept.rhythms);
    CHECK(back.keys == kept.keys);
    CHECK(back.aliases.begin()->second == kept.aliases.begin()->second);
    CHECK(back.verdicts == kept.verdicts);
    CHECK(back.events == kept.events);
    CHECK(back.wishes == kept.wishes);
    CHECK(back.exclusions == kept.exclusions);
    REQUIRE(back.players.size() == 2);
    CHECK(back.players[1].name == kept.players[1].name);
    CHECK(back.players[1].notes == kept.players[1].notes);
    CHECK(back.players[1].instrument == kept.players[1].instrument);
    CHECK(page::write_kept(back) == page::write_kept(kept));
}

TEST_CASE("what is no kept text is told, and takes nothing down", "[page]") {
    const auto told = [](const char* text) {
        try {
            page::read_kept(text);
        } catch (const page::KeptFault& fault) {
            return std::string(fault.what());
        }
        return std::string();
    };
    CHECK(told("{") == "this is not what a page keeps of players and tunes");
    CHECK(told("{\"players\":[{\"name\":3}]}") == "this is not what a page keeps of players and tunes");
    CHECK(told("{\"players\":[{\"name\":\"Bo\",\"notes\":[128]}]}") == "a note stands in it that is none");
    CHECK_THAT(
        told("{\"players\":[{\"name\":\"Bo\",\"events\":[{\"tune\":1,\"what\":\"known\",\"on\":\"2026-02-30\"}]}]}"),
        Contains("2026-02-30"));
    CHECK(
        told("{\"players\":[{\"name\":\"Bo\",\"events\":[{\"tune\":1,\"what\":\"eaten\",\"on\":\"2026-02-03\"}]}]}") ==
        "something happened to a tune that cannot happen");
    CHECK(told("{}").empty());
}
