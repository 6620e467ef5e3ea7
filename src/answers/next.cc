// Tested by next_test.cc.
#include "answers/next.h"

#include <algorithm>
#include <limits>
#include <set>
#include <span>

#include "answers/learning.h"
#include "answers/player_named.h"
#include "answers/player_twins.h"
#include "answers/tunes_asked.h"
#include "answers/within_reach.h"
#include "instruments/known.h"
#include "planner/order_notes.h"

namespace answers {

namespace {

// Tunes named that a note opens. Source: house choice; two titles fill a line.
constexpr std::size_t kExamples = 2;

// What opens most of these for somebody who has `have`; nothing where nothing waits.
std::optional<planner::Step> first_step(const std::vector<tune::TuneRecord>& records, const music::NoteSet& have) {
    std::vector<planner::Wanted> wanted;
    for (const tune::TuneRecord& record : records)
        if (!record.needed.empty()) wanted.push_back({record.id, record.needed, 1});
    planner::Goal goal;
    goal.have = have;
    goal.max_steps = 1;
    goal.runners_up = 0;
    goal.limits.max_seconds = std::numeric_limits<double>::infinity();  // by states alone: the same everywhere
    const planner::Plan plan = planner::plan_path(wanted, goal);
    return plan.steps.empty() ? std::nullopt : std::optional(plan.steps.front());
}

NextNote next_note(const planner::Step& step, const std::vector<tune::TuneRecord>& records) {
    NextNote note{step.add, step.opens, {}};
    for (const tune::TuneId id : step.ids) {
        const auto found = std::find_if(records.begin(), records.end(), [id](const auto& one) { return one.id == id; });
        if (found != records.end() && note.examples.size() < kExamples) note.examples.push_back(tune::title_of(*found));
    }
    return note;
}

// The rhythm asked for, where no tune there is has it.
std::optional<std::string> rhythm_of_no_tune(const std::optional<std::string>& asked, const collection::Answer& found) {
    const auto sieve = std::find_if(found.why.begin(), found.why.end(), [](const collection::LeftOut& out) {
        return out.filter == collection::FilterBy::rhythm;
    });
    if (!asked || sieve == found.why.end() || sieve->fails < found.matched + found.left_out) return std::nullopt;
    return asked;
}

std::shared_ptr<const instruments::Instrument> judged_on(const tune::Player& player, bool any_ways) {
    const instruments::Instrument* own = instrument_of(player);
    if (own == nullptr) return nullptr;
    if (any_ways) return std::make_shared<const instruments::Instrument>(own->with_any_ways());
    return instruments::lent(*own);
}

// Tunes in no state that may be proposed; all others are counted in the answer.
std::vector<tune::TuneRecord> not_begun(const collection::PlayerRecord& player, const collection::Answer& found,
                                        bool with_scraps, std::set<tune::TuneId>& wishes, NextAnswer& answer) {
    std::vector<tune::TuneRecord> fresh;
    for (const tune::TuneRecord& record : found.rows) {
        const tune::PlayerTune* said = said_of(player, record.id);
        const auto state = said ? tune::state_of(*said) : std::nullopt;
        if (state == tune::TuneState::learning) answer.at_work.push_back(record);
        if (state || record.needed.empty()) continue;
        if (said && said->excluded) {
            ++answer.unwanted;
            continue;
        }
        if (record.scrap && !with_scraps && !(said && said->wished)) {
            ++answer.scraps;
            continue;
        }
        const music::NoteSet missing = record.needed.without(answer.have);
        if (said && said->wished) {
            wishes.insert(record.id);
            if (!missing.empty()) answer.far_wishes.push_back({record, missing});
        }
        answer.within += missing.empty() ? 1 : 0;
        fresh.push_back(record);
    }
    return fresh;
}

void pick(const collection::Collection& collection, const collection::PlayerRecord& player,
          const std::vector<tune::TuneRecord>& fresh, const std::set<tune::TuneId>& wishes, NextAnswer& answer) {
    const Learning learning = learning_of(collection, player, answer.have, fresh);
    answer.last_rhythms = learning.learner.last_rhythms;
    const repertoire::HandOf hand_of = [&](std::size_t tune) {
        return answer.instrument == nullptr
                   ? std::nullopt
                   : hand_for_a_note(collection, learning.matters[tune].setting, *answer.instrument);
    };
    PlayerTwins twins(collection, player);
    const repertoire::TwinOf twin_of = [&](std::size_t tune, std::span<const repertoire::Pick> so_far) {
        std::vector<const repertoire::TuneMatter*> offered;
        for (const repertoire::Pick& one : so_far) offered.push_back(&learning.matters[one.tune]);
        return twins.twin_of(learning.matters[tune], offered);
    };
    repertoire::NextPicks next =
        repertoire::pick_next(learning.matters, learning.learner, wishes, answer.goal, hand_of, twin_of);
    for (repertoire::Pick& one : next.picks)
        answer.picks.push_back({fresh[learning.records[one.tune]], std::move(one)});
    for (const repertoire::HeldBack& held : next.held_back) {
        const tune::PlayerTune* said = said_of(player, held.twin);
        answer.held_back.push_back({fresh[learning.records[held.tune]],
                                    collection.tune_by_id(held.twin).value_or(tune::TuneRecord()),
                                    said ? tune::state_of(*said) : std::nullopt});
    }
}

}  // namespace

NextAnswer answer(const collection::Collection& collection, const NextQuestion& question) {
    const collection::PlayerRecord player = player_named(collection, question.player);
    const TunesAsked asked(collection, question.filter);
    NextAnswer answer;
    answer.player = player.player.name.text;
    answer.have = some_notes_of(collection, player);
    answer.goal.is_short = question.is_short;
    answer.goal.weights = question.weights;
    const collection::Answer found = collection.select_tunes(within_reach(asked, player, answer.have));
    answer.instrument = judged_on(player.player, question.any_ways);
    answer.left_out = found.left_out;
    answer.why = asked.sieves_of(found);
    answer.no_such_rhythm = rhythm_of_no_tune(question.filter.columns.rhythm, found);
    std::set<tune::TuneId> wishes;
    std::vector<tune::TuneRecord> fresh =
        not_begun(player, found, question.filter.scraps == Scraps::asked_for, wishes, answer);
    const std::optional<planner::Step> step = first_step(fresh, answer.have);
    if (step) answer.note = next_note(*step, fresh);
    answer.is_note_first = answer.within == 0;
    const music::NoteSet reach = answer.is_note_first && step ? answer.have | step->add : answer.have;
    std::erase_if(fresh, [&](const tune::TuneRecord& record) { return !record.needed.is_within(reach); });
    pick(collection, player, fresh, wishes, answer);
    return answer;
}

}  // namespace answers
