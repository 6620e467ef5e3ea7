// Tested by ladder_test.cc.
#include "answers/ladder.h"

#include <algorithm>
#include <optional>

#include "answers/learning.h"
#include "answers/player_named.h"
#include "answers/tune_named.h"
#include "answers/tunes_asked.h"
#include "answers/within_reach.h"

namespace answers {

namespace {

// The top passes whatever the filter says, which is for the stones; not what the player's instrument has no note for.
void refuse_beyond_instrument(const tune::Player& player, const tune::TuneRecord& top) {
    const instruments::Instrument* instrument = instrument_of(player);
    if (instrument == nullptr || top.needed.is_within(instrument->note_set())) return;
    Refusal refusal{Part::towards, Reason::out_of_reach, tune::title_of(top), {instrument->title}};
    refusal.notes = top.needed.without(instrument->note_set());
    throw Refused(std::move(refusal));
}

}  // namespace

LadderAnswer answer(const collection::Collection& collection, const LadderQuestion& question) {
    const collection::PlayerRecord player = player_named(collection, question.player);
    const TunesAsked asked(collection, question.filter);
    const music::NoteSet have = some_notes_of(collection, player);
    const collection::Answer found = collection.select_tunes(within_reach(asked, player, have));
    const tune::TuneRecord top = tune_named(collection, question.towards, Part::towards);
    const tune::PlayerTune* said = said_of(player, top.id);
    if (said && tune::state_of(*said) == tune::TuneState::known)
        throw Refused({Part::towards, Reason::known_already, tune::title_of(top), {player.player.name.text}});
    std::vector<tune::TuneRecord> records;
    std::optional<std::size_t> target;
    for (const tune::TuneRecord& record : found.rows) {
        const tune::PlayerTune* known = said_of(player, record.id);
        if (record.id == top.id)
            target = records.size();
        else if ((known && (tune::state_of(*known) || known->excluded)) ||
                 (record.scrap && question.filter.scraps != Scraps::asked_for))
            continue;
        records.push_back(record);
    }
    if (!target) {
        refuse_beyond_instrument(player.player, top);
        target = records.size();
        records.push_back(top);
    }
    const Learning learning = learning_of(collection, player, have, records);
    const auto at = std::find(learning.records.begin(), learning.records.end(), *target);
    if (at == learning.records.end()) throw Refused({Part::towards, Reason::nothing_in_it, question.towards});
    LadderAnswer answer;
    answer.player = player.player.name.text;
    answer.ladder = repertoire::find_ladder(learning.matters, static_cast<std::size_t>(at - learning.records.begin()),
                                            learning.learner, question.weights);
    for (const repertoire::Rung& rung : answer.ladder.rungs)
        answer.records.push_back(records[learning.records[rung.tune]]);
    return answer;
}

}  // namespace answers
