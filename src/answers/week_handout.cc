// Tested by week_handout_test.cc.
#include "answers/week_handout.h"

#include <algorithm>

#include "answers/next.h"
#include "answers/player_named.h"
#include "answers/reviews.h"

namespace answers {

namespace {

WeekTune week_tune(const tune::TuneRecord& record) { return {record, record.first_note}; }

// The shortest tune the player has, that is not among the others of the card.
std::optional<WeekTune> brief_of(const collection::Collection& collection, const collection::PlayerRecord& player,
                                 const WeekHandout& week) {
    std::optional<WeekTune> brief;
    std::vector<tune::TuneId> ids;
    for (const tune::PlayerTune& tune : player.tunes)
        if (tune::state_of(tune) == tune::TuneState::known) ids.push_back(tune.tune);
    for (const tune::TuneRecord& record : collection.tunes_by_id(ids)) {
        const bool is_told = std::any_of(week.again.begin(), week.again.end(),
                                         [&](const WeekTune& other) { return other.record.id == record.id; });
        if (is_told || record.bars == 0) continue;
        if (!brief || record.different_bars < brief->record.different_bars) brief = week_tune(record);
    }
    return brief;
}

}  // namespace

WeekHandout week_handout(const collection::Collection& collection, const std::string& player, base::Date from) {
    WeekHandout week;
    week.from = from;
    const collection::PlayerRecord record = player_named(collection, player);
    week.player = record.player.name.text;
    if (const instruments::Instrument* own = instrument_of(record.player))
        week.instrument = std::make_shared<const instruments::Instrument>(*own);
    NextQuestion question;
    question.player = week.player;
    question.filter.asker = week.player;
    if (question.filter.scraps != Scraps::asked_for) question.filter.scraps = Scraps::left_aside;
    const NextAnswer next = answer(collection, question);
    if (!next.at_work.empty())
        week.tune = week_tune(next.at_work.front()), week.is_at_work = true;
    else if (!next.picks.empty())
        week.tune = week_tune(next.picks.front().record);
    if (next.note && next.note->add.size() == 1) week.fresh = next.note->add.lowest(), week.opens = next.note->opens;
    ReviewsQuestion reviews;
    reviews.player = week.player;
    reviews.today = from;
    reviews.filter.asker = week.player;
    reviews.limit = kAgainInWeek + 1;
    for (const ReviewedTune& due : answer(collection, reviews).rows)
        if (week.again.size() < kAgainInWeek && !(week.tune && due.record.id == week.tune->record.id))
            week.again.push_back(week_tune(due.record));
    week.brief = brief_of(collection, record, week);
    return week;
}

}  // namespace answers
