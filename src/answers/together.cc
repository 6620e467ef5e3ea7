// Tested by together_test.cc.
#include "answers/together.h"

#include <span>

#include "answers/tunes_asked.h"
#include "tune/title.h"

namespace answers {

namespace {

std::vector<planner::Member> named_members(const TunesAsked& asked) {
    std::vector<planner::Member> members = asked.members();
    if (members.size() < 2) throw Refused({Part::players, Reason::two_players});
    for (std::size_t at = 0; at < members.size(); ++at)
        if (members[at].name.empty()) members[at].name = "player " + std::to_string(at + 1);
    return members;
}

}  // namespace

TogetherAnswer answer(const collection::Collection& collection, const TogetherQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    TogetherAnswer answer;
    answer.members = named_members(asked);
    answer.left_out_notes = asked.left_out();
    collection::Selection selection = asked.selection_without_notes();
    music::NoteSet common = answer.members.front().have;
    music::NoteSet reach = answer.members.front().reach;
    for (const planner::Member& member : answer.members) {
        common = common & member.have;
        reach = reach & member.reach;
    }
    selection.nearest_to = common;
    std::map<tune::TuneId, collection::TuneNotes> chosen;
    const auto choose = [&] {
        for (const collection::TuneNotes& tune : collection.select_notes(selection).rows) {
            if (tune.needed.empty()) continue;
            chosen.emplace(selection.settings ? collection.own_ids(std::span(&tune.setting, 1)).front() : tune.id,
                           tune);
        }
    };
    // Of several settings one that can be played some day goes before one that cannot.
    selection.fits = reach | common;
    choose();
    selection.fits.reset();
    choose();
    std::vector<planner::Wanted> wanted;
    for (const auto& [id, tune] : chosen) wanted.push_back({id, tune.needed, 1});
    answer.tunes = static_cast<std::int64_t>(wanted.size());
    answer.found = planner::play_together(wanted, answer.members);
    const auto look_up = [&](const std::vector<tune::TuneId>& ids) {
        for (const tune::TuneId id : ids) {
            const tune::SettingId setting = chosen.at(id).setting;
            answer.titles.emplace(id, tune::title_or_none(collection.first_titles(std::span(&setting, 1)).front()));
        }
    };
    look_up(answer.found.now);
    for (const auto* found : {&answer.found.notes, &answer.found.groups})
        for (const planner::SharedNotes& notes : *found) look_up(notes.opens);
    return answer;
}

}  // namespace answers
