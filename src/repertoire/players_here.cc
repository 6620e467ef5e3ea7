// Tested by players_here_test.cc.
#include "repertoire/players_here.h"

#include <algorithm>
#include <iterator>

#include "tune/title.h"

namespace repertoire {

namespace {

bool has_title(const TuneHere& tune, const std::string& title) {
    const std::string folded = tune::fold_title(title);
    return std::any_of(tune.titles.begin(), tune.titles.end(),
                       [&](const std::string& one) { return tune::fold_title(one) == folded; });
}

bool stands_at(const TuneHere& tune, const FiledTune& filed) {
    return !filed.file.empty() && std::any_of(tune.places.begin(), tune.places.end(), [&](const TunePlace& place) {
        return place.file == filed.file && place.number == filed.number;
    });
}

template <typename Holds>
const TuneHere* the_only(std::span<const TuneHere> tunes, Holds holds) {
    const auto one = std::find_if(tunes.begin(), tunes.end(), holds);
    if (one == tunes.end()) return nullptr;
    return std::find_if(std::next(one), tunes.end(), holds) == tunes.end() ? &*one : nullptr;
}

// The tune with one day's events of the file put in.
tune::PlayerTune with(const tune::PlayerTune& here, std::span<const EventToAdd> added) {
    tune::PlayerTune both = here;
    for (const EventToAdd& add : added) {
        const auto is_later = [&](const tune::DatedEvent& event) {
            return add.is_before ? event.day >= add.event.day : event.day > add.event.day;
        };
        both.events.insert(std::find_if(both.events.begin(), both.events.end(), is_later), add.event);
    }
    return both;
}

// Of a day with events here; `filed` is that day's, `both` what is here with all that is sure to come, or comes later.
std::vector<EventToAdd> merged_day(const tune::PlayerTune& here, const tune::PlayerTune& both,
                                   std::span<const tune::DatedEvent> filed) {
    std::vector<tune::DatedEvent> unmatched = here.events;
    std::vector<EventToAdd> states;
    std::vector<EventToAdd> others;
    for (const tune::DatedEvent& event : filed) {
        if (const auto same = std::find(unmatched.begin(), unmatched.end(), event); same != unmatched.end())
            unmatched.erase(same);
        else if (tune::says_state(event.event))
            states.insert(states.begin(), {event, true});  // each goes before the one added last
        else
            others.push_back({event, false});
    }
    const bool says_here = std::any_of(here.events.begin(), here.events.end(),
                                       [](const tune::DatedEvent& event) { return tune::says_state(event.event); });
    if (says_here && tune::state_of(with(both, states)) != tune::state_of(both)) states.clear();
    states.insert(states.end(), others.begin(), others.end());
    return states;
}

}  // namespace

std::optional<TuneMeant> tune_meant(const FiledTune& filed, std::span<const TuneHere> here) {
    const auto is_same = [&](const TuneHere& tune) { return tune.id == filed.said.tune; };
    const auto at_place = [&](const TuneHere& tune) { return stands_at(tune, filed); };
    const auto titled = [&](const TuneHere& tune) { return !filed.title.empty() && has_title(tune, filed.title); };
    const TuneHere* meant = nullptr;
    if (std::none_of(here.begin(), here.end(), titled)) {
        meant = the_only(here, [&](const TuneHere& tune) { return is_same(tune) && at_place(tune); });
        if (meant == nullptr && filed.title.empty())
            meant = the_only(here, [&](const TuneHere& tune) { return tune.titles.empty() && at_place(tune); });
        if (meant == nullptr) return std::nullopt;
        return TuneMeant{meant->id, !filed.title.empty() || !meant->titles.empty()};
    }
    meant = the_only(here, titled);
    if (meant == nullptr)
        meant = the_only(here, [&](const TuneHere& tune) { return titled(tune) && is_same(tune) && at_place(tune); });
    if (meant == nullptr) meant = the_only(here, [&](const TuneHere& tune) { return titled(tune) && at_place(tune); });
    return meant ? std::optional(TuneMeant{meant->id, false}) : std::nullopt;
}

std::vector<EventToAdd> events_to_add(const tune::PlayerTune& here, std::span<const tune::DatedEvent> filed) {
    struct Day {
        std::span<const tune::DatedEvent> filed;
        bool is_here;
        std::vector<EventToAdd> added;
    };
    std::vector<Day> days;
    tune::PlayerTune both = here;
    for (std::size_t from = 0; from < filed.size();) {
        const base::Date date = filed[from].day;
        std::size_t to = from;
        while (to < filed.size() && filed[to].day == date) ++to;
        Day day{filed.subspan(from, to - from), false, {}};
        day.is_here = std::any_of(here.events.begin(), here.events.end(),
                                  [&](const tune::DatedEvent& event) { return event.day == date; });
        if (!day.is_here) {
            for (const tune::DatedEvent& event : day.filed) day.added.push_back({event, false});
            both = with(both, day.added);
        }
        days.push_back(std::move(day));
        from = to;
    }
    // The last day first: whether a state counts is up to those after it, so that nothing comes the second time.
    for (auto day = days.rbegin(); day != days.rend(); ++day) {
        if (!day->is_here) continue;
        day->added = merged_day(here, both, day->filed);
        both = with(both, day->added);
    }
    std::vector<EventToAdd> all;
    for (const Day& day : days) all.insert(all.end(), day.added.begin(), day.added.end());
    return all;
}

}  // namespace repertoire
