#include "repertoire/players_here.h"

#include <algorithm>
#include <catch2/catch.hpp>

using repertoire::events_to_add;
using repertoire::EventToAdd;
using tune::DatedEvent;
using tune::PlayerEvent;

namespace {

// Day by day, `3 known` said on the third.
DatedEvent on(int day, PlayerEvent event) {
    return {base::read_date("2027-01-" + std::string(day < 10 ? "0" : "") + std::to_string(day)), event};
}

tune::PlayerTune with_all(tune::PlayerTune here, const std::vector<EventToAdd>& added) {
    for (const EventToAdd& add : added) {
        const auto is_later = [&](const DatedEvent& event) {
            return add.is_before ? event.day >= add.event.day : event.day > add.event.day;
        };
        here.events.insert(std::find_if(here.events.begin(), here.events.end(), is_later), add.event);
    }
    return here;
}

}  // namespace

TEST_CASE("players_here: what was said here of a day goes before the state a file gives it", "[repertoire]") {
    const tune::PlayerTune here{{}, {on(2, PlayerEvent::learning), on(4, PlayerEvent::played)}, false, {}};
    CHECK(events_to_add(here, std::vector{on(4, PlayerEvent::forgotten)}).empty());
    // Where a later state decides, the earlier one is history and comes.
    CHECK(events_to_add(here, std::vector{on(4, PlayerEvent::forgotten), on(6, PlayerEvent::rusty)}).size() == 2);
}

TEST_CASE("players_here: whatever a file says, it is brought once", "[repertoire]") {
    // Every history of two events here against every one of two in the file, on three days.
    std::vector<std::vector<DatedEvent>> histories;
    for (int first = 1; first <= 3; ++first)
        for (int second = first; second <= 3; ++second)
            for (int one = 0; one < 6; ++one)
                for (int other = 0; other < 6; ++other)
                    histories.push_back(
                        {on(first, static_cast<PlayerEvent>(one)), on(second, static_cast<PlayerEvent>(other))});
    std::size_t brought_again = 0;
    for (const auto& events : histories)
        for (const auto& filed : histories) {
            const tune::PlayerTune here{{}, events, false, {}};
            const tune::PlayerTune both = with_all(here, events_to_add(here, filed));
            brought_again += events_to_add(both, filed).empty() ? 0 : 1;
        }
    CHECK(brought_again == 0);
}
