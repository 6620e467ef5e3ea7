// Tested by too_hard_test.cc.
#include "answers/too_hard.h"

#include <algorithm>
#include <tuple>
#include <vector>

#include "answers/learning.h"
#include "answers/player_named.h"
#include "answers/tune_named.h"
#include "answers/within_reach.h"

namespace answers {

namespace {

Weighed weighed(const tune::TuneRecord& record, const repertoire::TuneMatter& matter,
                const repertoire::Learner& beginner) {
    Weighed tune{record, repertoire::load_of(matter, beginner), matter.range, 0};
    tune.points = repertoire::weigh(tune.load, repertoire::LoadWeights());
    return tune;
}

CanPlay judged(const TooHardAnswer& answer, const tune::PlayerTune* said) {
    if (said != nullptr && tune::state_of(*said) == tune::TuneState::known) return CanPlay::known;
    if (!answer.not_on_instrument.empty()) return CanPlay::out_of_reach;
    if (!answer.to_learn.fresh.empty()) return CanPlay::not_yet;
    if (!answer.hardest) return CanPlay::unmeasured;
    return answer.tune.points <= answer.hardest->points ? CanPlay::yes : CanPlay::not_yet;
}

}  // namespace

std::string_view can_play_token(CanPlay answer) noexcept {
    switch (answer) {
        case CanPlay::known:
            return "known";
        case CanPlay::yes:
            return "yes";
        case CanPlay::not_yet:
            return "not-yet";
        case CanPlay::out_of_reach:
            return "out-of-reach";
        case CanPlay::unmeasured:
            break;
    }
    return "unmeasured";
}

TooHardAnswer answer(const collection::Collection& collection, const TooHardQuestion& question) {
    const collection::PlayerRecord player = player_named(collection, question.player);
    const music::NoteSet have = some_notes_of(collection, player);
    const tune::TuneRecord top = tune_named(collection, question.which);
    std::vector<tune::TuneId> known;
    for (const tune::PlayerTune& tune : player.tunes)
        if (tune.tune != top.id && tune::state_of(tune) == tune::TuneState::known) known.push_back(tune.tune);
    std::vector<tune::TuneRecord> records{top};
    for (tune::TuneRecord& record : collection.tunes_by_id(known)) records.push_back(std::move(record));

    const Learning learning = learning_of(collection, player, have, records);
    if (learning.records.empty() || learning.records.front() != 0)
        throw Refused({Part::tune, Reason::nothing_in_it, question.which});
    TooHardAnswer answer;
    answer.player = player.player.name.text;
    repertoire::Learner beginner;
    beginner.have = have;
    answer.tune = weighed(top, learning.matters.front(), beginner);
    answer.to_learn = repertoire::load_of(learning.matters.front(), learning.learner);
    answer.to_learn.same_rhythm = 0;  // that is about what to take up next
    answer.known = static_cast<std::int64_t>(learning.records.size()) - 1;
    const auto rank = [](const Weighed& tune) {
        return std::tuple(-tune.points, tune::title_of(tune.record), tune.record.id);
    };
    for (std::size_t at = 1; at < learning.records.size(); ++at) {
        Weighed one = weighed(records[learning.records[at]], learning.matters[at], beginner);
        if (!answer.hardest || rank(one) < rank(*answer.hardest)) answer.hardest = std::move(one);
    }
    if (const instruments::Instrument* instrument = instrument_of(player.player)) {
        answer.not_on_instrument = top.needed.without(instrument->note_set());
        if (!answer.not_on_instrument.empty()) answer.instrument = instrument->title;
    }
    answer.can_play = judged(answer, said_of(player, top.id));
    return answer;
}

}  // namespace answers
