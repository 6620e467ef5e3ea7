// Tested by next_test.cc.
#include "answers/within_reach.h"

#include <algorithm>

#include "answers/player_named.h"

namespace answers {

collection::Selection within_reach(const TunesAsked& asked, const collection::PlayerRecord& player,
                                   const music::NoteSet& have) {
    collection::Selection selection = asked.selection_without_notes();
    music::NoteSet reach = music::every_note();
    if (const instruments::Instrument* own = instrument_of(player.player)) reach = reach & own->note_set();
    if (const instruments::Instrument* other = asked.instrument()) reach = reach & other->note_set();
    for (const planner::Member& member : asked.members()) reach = reach & member.have;
    if (reach != music::every_note()) selection.fits = reach;
    selection.nearest_to = have;
    return selection;
}

const tune::PlayerTune* said_of(const collection::PlayerRecord& player, tune::TuneId tune) {
    const auto found = std::find_if(player.tunes.begin(), player.tunes.end(),
                                    [tune](const tune::PlayerTune& one) { return one.tune == tune; });
    return found == player.tunes.end() ? nullptr : &*found;
}

}  // namespace answers
