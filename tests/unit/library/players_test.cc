#include "library/players.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/verdicts.h"
#include "music/note_expression.h"
#include "sample.h"
#include "support/scratch.h"

using collection::PlayerRecord;
using library::Library;
using library::Players;
using tune::PlayerEvent;
using tune::TuneId;

namespace {

base::Date day(const char* text) { return base::read_date(text); }

tune::Player player(const char* name) {
    tune::Player made;
    made.name = tune::read_player_name(name);
    return made;
}

// A library of three tunes.
struct PlayersShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    PlayersShelf() {
        import({sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22), sample::setting("3", "Net", 33)});
    }
    void import(const std::vector<collection::StoredSetting>& settings) const {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(sample::file("/t/a.abc", settings));
        intake.close();
    }
    PlayerRecord record(const char* name) const { return Library::open_existing(file).player_named(name).value(); }
    template <typename Write>
    void change(Write write) const {
        Players players = Players::change(file);
        write(players);
        players.commit();
    }
    tune::PlayerId add(const tune::Player& made) const {
        std::optional<tune::PlayerId> id;
        change([&](Players& players) { id = players.add(made); });
        return id.value();
    }
};

}  // namespace

TEST_CASE("players: none to begin with; added, found by any spelling, listed by name", "[library][players]") {
    const PlayersShelf shelf;
    CHECK(Library::open_existing(shelf.file).players().empty());
    CHECK_FALSE(Library::open_existing(shelf.file).player_named("Ina"));
    shelf.add(player("Uli \"the bow\" O'Strand"));
    tune::Player ina = player("Ína");
    ina.instrument = "whistle-d";
    ina.notes = music::read_notes("D4 E4 B5");
    ina.id = shelf.add(ina);
    CHECK(shelf.record(" INA ").player == ina);
    CHECK_FALSE(shelf.record("uli \"the bow\" o'strand").player.notes);
    const std::vector<PlayerRecord> all = Library::open_existing(shelf.file).players();
    REQUIRE(all.size() == 2);
    CHECK(all[0].player == ina);
}

TEST_CASE("players: no two of one name", "[library][players]") {
    const PlayersShelf shelf;
    shelf.add(player("Ina"));
    shelf.change([](Players& players) { CHECK_FALSE(players.add(player("iná"))); });
    CHECK(Library::open_existing(shelf.file).players().size() == 1);
}

TEST_CASE("players: what is said of a tune is kept by day, the same twice once", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    shelf.change([&](Players& players) {
        players.record(ina, TuneId{2}, {day("2027-02-02"), PlayerEvent::known});
        players.record(ina, TuneId{2}, {day("2027-01-12"), PlayerEvent::learning});
        players.record(ina, TuneId{2}, {day("2027-01-12"), PlayerEvent::learning});
        players.wish(ina, TuneId{1}, true);
        players.exclude(ina, TuneId{3}, "too high; \"no\"");
    });
    const PlayerRecord record = shelf.record("Ina");
    REQUIRE(record.tunes.size() == 3);
    CHECK(record.tunes[0] == tune::PlayerTune{TuneId{1}, {}, true, {}});
    CHECK(record.tunes[1].events == std::vector<tune::DatedEvent>{{day("2027-01-12"), PlayerEvent::learning},
                                                                  {day("2027-02-02"), PlayerEvent::known}});
    CHECK(record.tunes[2].excluded == "too high; \"no\"");
    shelf.change([&](Players& players) {
        players.wish(ina, TuneId{1}, false);
        players.exclude(ina, TuneId{3}, std::nullopt);
    });
    CHECK(shelf.record("Ina").tunes.size() == 1);
}

TEST_CASE("players: the last thing said can be taken back, and no more than that", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    const tune::PlayerId uli = shelf.add(player("Uli"));
    shelf.change([&](Players& players) { players.record(ina, TuneId{1}, {day("2027-01-12"), PlayerEvent::known}); });
    shelf.change([&](Players& players) {
        players.record(ina, TuneId{1}, {day("2027-01-19"), PlayerEvent::played});
        players.record(ina, TuneId{2}, {day("2027-01-19"), PlayerEvent::played});
    });
    shelf.change([&](Players& players) { players.record(uli, TuneId{3}, {day("2027-01-20"), PlayerEvent::known}); });
    shelf.change([&](Players& players) { CHECK(players.take_back(ina).size() == 2); });
    REQUIRE(shelf.record("Ina").tunes.size() == 1);
    CHECK(shelf.record("Ina").tunes[0].events.size() == 1);
    CHECK(shelf.record("Uli").tunes.size() == 1);
    shelf.change([&](Players& players) { CHECK(players.take_back(ina).size() == 1); });
    shelf.change([&](Players& players) { CHECK(players.take_back(ina).empty()); });
}

TEST_CASE("players: no import touches what they said", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    shelf.change([&](Players& players) { players.record(ina, TuneId{2}, {day("2027-02-02"), PlayerEvent::known}); });
    const PlayerRecord before = shelf.record("Ina");
    shelf.import({});  // every tune gone
    CHECK(shelf.record("Ina") == before);
    shelf.import({sample::setting("7", "Rope", 22)});  // renumbered
    CHECK(shelf.record("Ina") == before);
}

TEST_CASE("players: one removed is gone with all that was said, the others stay", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    const tune::PlayerId uli = shelf.add(player("Uli"));
    shelf.change([&](Players& players) {
        players.record(ina, TuneId{2}, {day("2027-02-02"), PlayerEvent::known});
        players.record(uli, TuneId{2}, {day("2027-02-02"), PlayerEvent::known});
        players.wish(ina, TuneId{1}, true);
    });
    shelf.change([&](Players& players) { players.remove(ina); });
    CHECK_FALSE(Library::open_existing(shelf.file).player_named("Ina"));
    CHECK(shelf.record("Uli").tunes.size() == 1);
    shelf.add(player("Ina"));
    CHECK(shelf.record("Ina").tunes.empty());
}

TEST_CASE("players: tunes that become one are one for the player, and two again when parted", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    shelf.change([&](Players& players) {
        players.record(ina, TuneId{3}, {day("2027-01-12"), PlayerEvent::known});
        players.record(ina, TuneId{1}, {day("2027-01-19"), PlayerEvent::played});
        players.wish(ina, TuneId{3}, true);
    });
    library::say_same(shelf.file, TuneId{1}, TuneId{3}, true);
    const PlayerRecord together = shelf.record("Ina");
    REQUIRE(together.tunes.size() == 1);
    CHECK(together.tunes[0].tune == TuneId{1});
    CHECK(together.tunes[0].wished);
    CHECK(tune::state_of(together.tunes[0]) == tune::TuneState::known);
    CHECK(tune::last_played(together.tunes[0]) == day("2027-01-19"));
    shelf.change([&](Players& players) { players.wish(ina, TuneId{1}, false); });  // said of the family
    CHECK_FALSE(shelf.record("Ina").tunes[0].wished);
    library::say_same(shelf.file, TuneId{1}, TuneId{3}, false);
    CHECK(shelf.record("Ina").tunes.size() == 2);
}

TEST_CASE("players: a tune that is not there is refused, and nothing is kept", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId ina = shelf.add(player("Ina"));
    CHECK_THROWS_AS(shelf.change([&](Players& players) {
        players.record(ina, TuneId{1}, {day("2027-01-12"), PlayerEvent::known});
        players.record(ina, TuneId{99}, {day("2027-01-12"), PlayerEvent::known});
    }),
                    base::Failure);
    CHECK(shelf.record("Ina").tunes.empty());
}

TEST_CASE("players: tunes chosen by their ids, or all but those", "[library][players]") {
    const PlayersShelf shelf;
    const Library library = Library::open_existing(shelf.file);
    const auto chosen = [&](std::vector<TuneId> tunes, bool is_left_out) {
        collection::Selection selection;
        selection.state = collection::TuneChoice{std::move(tunes), is_left_out};
        const collection::Answer answer = library.select_tunes(selection);
        std::vector<std::int64_t> ids;
        for (const tune::TuneRecord& row : answer.rows) ids.push_back(row.id.value);
        std::sort(ids.begin(), ids.end());
        REQUIRE(answer.why.size() == 1);
        CHECK(answer.why.front().filter == collection::FilterBy::state);
        CHECK(answer.why.front().fails == answer.left_out);
        return ids;
    };
    CHECK(chosen({TuneId{3}, TuneId{1}, TuneId{3}, TuneId{99}}, false) == std::vector<std::int64_t>{1, 3});
    CHECK(chosen({TuneId{3}}, true) == std::vector<std::int64_t>{1, 2});
    CHECK(chosen({}, false).empty());
    CHECK(chosen({}, true) == std::vector<std::int64_t>{1, 2, 3});
}

TEST_CASE("players: a class is set, changed, forgotten, and loses who is removed", "[library][players]") {
    const PlayersShelf shelf;
    const tune::PlayerId uli = shelf.add(player("Uli"));
    const tune::PlayerId ina = shelf.add(player("Ina"));
    const auto classes = [&] { return Library::open_existing(shelf.file).player_classes(); };
    const tune::PlayerName mondays = tune::read_player_name("Mondays"), duo = tune::read_player_name("Duo");
    CHECK(classes().empty());
    shelf.change([&](Players& players) {
        players.set_class(mondays, {uli, ina});
        players.set_class(duo, {ina});
    });
    CHECK(classes() == std::vector<collection::PlayerClass>{{duo, {"Ina"}}, {mondays, {"Ina", "Uli"}}});
    shelf.change([&](Players& players) { players.rename(uli, tune::read_player_name("Bo")); });
    CHECK(classes()[1].players == std::vector<std::string>{"Bo", "Ina"});
    shelf.change([&](Players& players) { players.remove(ina); });
    CHECK(classes() == std::vector<collection::PlayerClass>{{mondays, {"Bo"}}});
    shelf.change([&](Players& players) {
        CHECK(players.remove_class(tune::read_player_name("MONDAYS")));
        CHECK_FALSE(players.remove_class(duo));
    });
    CHECK(classes().empty());
}
