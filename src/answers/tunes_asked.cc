// Tested by tunes_asked_test.cc.
#include "answers/tunes_asked.h"

#include <algorithm>
#include <set>

#include "answers/player_named.h"

namespace answers {

namespace {

music::NoteSet common_to(const std::vector<planner::Member>& members) {
    music::NoteSet common = music::every_note();
    for (const planner::Member& member : members) common = common & member.have;
    return common;
}

bool is_in(StateAsked asked, const tune::PlayerTune& tune) {
    const auto state = tune::state_of(tune);
    switch (asked) {
        case StateAsked::learning:
            return state == tune::TuneState::learning;
        case StateAsked::known:
            return state == tune::TuneState::known;
        case StateAsked::rusty:
            return state == tune::TuneState::rusty;
        case StateAsked::none:
            break;
    }
    return state.has_value();  // those that are then left out
}

}  // namespace

TunesAsked::TunesAsked(const collection::Collection& collection, const Filter& filter)
    : collection_(collection), filter_(filter) {
    for (const std::string& name : players_meant(collection, filter.players).names)
        players_.push_back(player_named(collection, name));
}

const collection::PlayerRecord& TunesAsked::asker() const {
    if (!asker_) asker_ = player_named(collection_, *filter_.asker);
    return *asker_;
}

const instruments::Instrument* TunesAsked::instrument() const {
    const instruments::Instrument* whole = filter_.instrument.get();
    if (whole == nullptr && players_.size() == 1) whole = instrument_of(players_.front().player);
    if (!filter_.grade) return whole;
    if (whole == nullptr && players_.empty() && filter_.asker) whole = instrument_of(asker().player);
    if (whole == nullptr && players_.size() > 1) return nullptr;  // each on an instrument of their own
    if (whole == nullptr) throw Refused({Part::grade, Reason::grade_of_which});
    if (!graded_) graded_ = up_to_grade(*whole);
    return &*graded_;
}

instruments::Instrument TunesAsked::up_to_grade(const instruments::Instrument& whole) const {
    instruments::Instrument easier = whole.up_to_grade(*filter_.grade);
    if (easier.notes.empty()) throw Refused({Part::grade, Reason::no_note_so_easy, whole.title});
    return easier;
}

music::Compass TunesAsked::compass() const {
    const instruments::Instrument* in_hand = instrument();
    return in_hand ? in_hand->core : music::Compass();
}

planner::Member TunesAsked::member(const std::string& text) const {
    return read_member(text, instrument(), names_in(collection_), left_out_);
}

std::vector<planner::Member> TunesAsked::members() const {
    std::vector<planner::Member> members;
    for (const std::string& text : filter_.fits) members.push_back(member(text));
    for (planner::Member& player : members_of_players()) members.push_back(std::move(player));
    return members;
}

std::vector<planner::Member> TunesAsked::members_of_players() const {
    std::vector<planner::Member> members;
    for (const collection::PlayerRecord& record : players_) {
        const instruments::Instrument* instrument = instrument_of(record.player);
        music::NoteSet reach = instrument ? instrument->note_set() : music::every_note();
        if (filter_.grade && instrument) reach = up_to_grade(*instrument).note_set();
        members.push_back({record.player.name.text, some_notes_of(collection_, record), reach});
    }
    return members;
}

std::optional<music::NoteSet> TunesAsked::have_of_players() const {
    if (players_.empty()) return std::nullopt;
    const music::NoteSet common = common_to(members_of_players());
    if (common.empty()) throw Refused({Part::players, Reason::no_note_in_common});
    return common;
}

music::NoteSet TunesAsked::fits_all() const {
    std::vector<planner::Member> all = members();
    if (filter_.grade)  // what is too hard counts as not had
        for (planner::Member& member : all) member.have = member.have & member.reach;
    music::NoteSet common = common_to(all);
    if (filter_.instrument) common = common & instrument()->note_set();
    if (common.empty()) throw Refused({players_.empty() ? Part::fits : Part::players, Reason::no_note_in_common});
    return common;
}

music::NoteSet TunesAsked::notes(Part part, const std::string& text) const {
    return notes_asked(part, text, instrument(), names_in(collection_), left_out_);
}

collection::Selection TunesAsked::selection_to_learn() const {
    if (players_.empty()) return selection();
    collection::Selection selection = selection_without_notes();
    music::NoteSet reach = music::every_note();
    for (const planner::Member& player : members_of_players()) reach = reach & player.reach;
    for (const std::string& text : filter_.fits) reach = reach & member(text).have;
    if (const instruments::Instrument* in_hand = instrument()) reach = reach & in_hand->note_set();
    if (filter_.missing) throw Refused({Part::missing, Reason::counts_every_tune});
    if (reach != music::every_note()) selection.fits = reach;
    return selection;
}

Reach TunesAsked::reach() const {
    Reach reach;
    reach.players = players_.size();
    reach.instrument = filter_.instrument != nullptr;
    if (!reach.is_given()) return reach;
    reach.grade = filter_.grade;
    reach.fits = !players_.empty() && !filter_.fits.empty();
    return reach;
}

// Tunes in the state asked for, of all players asked for (`none`: of each of them); of the only player there is where
// nobody is named.
collection::TuneChoice TunesAsked::in_state() const {
    std::vector<collection::PlayerRecord> whose = players_;
    if (whose.empty() && filter_.asker) whose.push_back(asker());
    if (whose.empty()) {
        whose = collection_.players();
        if (whose.empty()) throw Refused({Part::state, Reason::no_players});
        if (whose.size() > 1) throw Refused({Part::state, Reason::which_player});
    }
    collection::TuneChoice choice;
    choice.is_left_out = filter_.state == StateAsked::none;
    std::map<tune::TuneId, std::size_t> of_how_many;
    for (const collection::PlayerRecord& record : whose)
        for (const tune::PlayerTune& tune : record.tunes)
            if (is_in(*filter_.state, tune)) ++of_how_many[tune.tune];
    for (const auto& [tune, players] : of_how_many)
        if (choice.is_left_out || players == whose.size()) choice.tunes.push_back(tune);
    return choice;
}

std::vector<tune::TuneId> TunesAsked::settled_for_players() const {
    std::map<tune::TuneId, std::size_t> begun;  // by how many
    std::set<tune::TuneId> settled;
    for (const collection::PlayerRecord& record : players_)
        for (const tune::PlayerTune& tune : record.tunes) {
            if (tune.excluded) settled.insert(tune.tune);
            if (tune::state_of(tune) && ++begun[tune.tune] == players_.size()) settled.insert(tune.tune);
        }
    return {settled.begin(), settled.end()};
}

std::vector<std::pair<tune::TuneId, std::vector<std::string>>> TunesAsked::known_by_players() const {
    std::map<tune::TuneId, std::vector<std::string>> who;
    for (const collection::PlayerRecord& record : players_)
        for (const tune::PlayerTune& tune : record.tunes)
            if (tune::state_of(tune)) who[tune.tune].push_back(record.player.name.text);
    return {who.begin(), who.end()};
}

std::map<tune::TuneId, std::int64_t> TunesAsked::wishes_of_players() const {
    std::map<tune::TuneId, std::int64_t> wishes;
    for (const collection::PlayerRecord& record : players_)
        for (const tune::PlayerTune& tune : record.tunes)
            if (tune.wished) ++wishes[tune.tune];
    return wishes;
}

collection::Selection TunesAsked::selection(bool instrument_filters) const {
    collection::Selection selection = selection_without_notes();
    const instruments::Instrument* in_hand = instrument_filters ? instrument() : nullptr;
    const bool is_by_notes = !filter_.fits.empty() || !players_.empty();
    if (!is_by_notes && in_hand == nullptr) {
        if (filter_.missing) throw Refused({Part::missing, Reason::lacking_which});
        return selection;
    }
    const music::NoteSet have = is_by_notes ? fits_all() : in_hand->note_set();
    selection.nearest_to = have;
    if (!filter_.missing) {
        selection.fits = have;
        return selection;
    }
    selection.missing = collection::Missing{have, filter_.missing->at_most, filter_.missing->at_least};
    // What may be lacking can still be learnt: a note that the instrument has not cannot.
    music::NoteSet reach = in_hand ? in_hand->note_set() : music::every_note();
    for (const planner::Member& member : members()) reach = reach & (member.reach | member.have);
    if (is_by_notes && reach != music::every_note()) selection.fits = reach | have;
    return selection;
}

collection::Selection TunesAsked::selection_without_notes() const {
    collection::Selection selection = filter_.columns;
    selection.scraps = filter_.scraps != Scraps::left_aside;
    if (filter_.state) selection.state = in_state();
    return selection;
}

std::vector<Sieve> TunesAsked::sieves_of(const collection::Tally& tally) const {
    const std::string_view of_notes = !filter_.fits.empty() ? "fits" : !players_.empty() ? "for" : "instrument";
    std::vector<Sieve> sieves;
    for (const collection::LeftOut& out : tally.why) {
        if (out.filter == collection::FilterBy::scraps) continue;
        const bool is_reach = out.filter == collection::FilterBy::fits && filter_.missing;  // see selection()
        const bool is_of_notes =
            out.filter == collection::FilterBy::missing || out.filter == collection::FilterBy::fits;
        sieves.push_back({is_reach      ? "reach"
                          : is_of_notes ? of_notes
                                        : collection::filter_token(out.filter),
                          out.fails});
    }
    return sieves;
}

}  // namespace answers
