// Tested by notes_test.cc.
#include "answers/notes.h"

#include "answers/tunes_asked.h"
#include "planner/deadline.h"
#include "planner/note_groups.h"

namespace answers {

namespace {

// Every note name in all its octaves is one group.
planner::NoteGroups names_as_groups() {
    planner::NoteGroups groups;
    for (int name = 0; name < 12; ++name) {
        music::NoteSet notes;
        for (int note = name; note < music::kMidiNotes; note += 12) notes.add(note);
        groups.join(notes, 1);
    }
    return groups;
}

// What each note is worth, without which no few can be chosen.
void look_for_fewest(const NotesQuestion& question, const std::vector<planner::Wanted>& wanted,
                     const planner::NoteGroups& groups, NotesAnswer& answer) {
    music::NoteSet had;
    std::int64_t needed_notes = 0;
    for (const planner::NoteWorth& note : answer.notes) {
        if (note.had == planner::Had::yes) had.add(note.lead);
        if (note.uses > 0) ++needed_notes;
    }
    if (answer.tunes == 0) return;
    if (question.best_start.value_or(0) > needed_notes)
        throw Refused({Part::best_start,
                       answer.by_name ? Reason::fewer_names : Reason::fewer_notes,
                       std::to_string(*question.best_start),
                       {std::to_string(needed_notes)}});
    const planner::Deadline deadline(question.limits);
    const std::vector<planner::Demand> demands = planner::needs_of(wanted, groups);
    for (const int percent : question.percents) {
        const std::int64_t tunes = (percent * answer.tunes + 99) / 100;
        const planner::SmallestCover found = planner::smallest_cover(demands, tunes, question.limits, deadline);
        answer.smallest.push_back({percent, tunes, found, found.cover.notes.without(had)});
    }
    if (question.best_start)
        answer.best_start = {*question.best_start,
                             planner::best_cover(demands, {static_cast<std::size_t>(*question.best_start), {}, 2},
                                                 question.limits, deadline)};
}

}  // namespace

NotesAnswer answer(const collection::Collection& collection, const NotesQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    NotesAnswer answer;
    const auto of_players = asked.have_of_players();
    answer.is_have_given = question.have || of_players;
    answer.have = question.have ? asked.notes(Part::have, *question.have) : of_players.value_or(music::NoteSet());
    answer.by_name = question.by_name;
    collection::Selection selection = asked.selection_to_learn();
    answer.left_out_notes = asked.left_out();
    selection.nearest_to = answer.have;
    const collection::NotesAnswer found = collection.select_notes(selection);
    answer.reach = asked.reach();
    answer.out_of_reach = answer.reach.is_given() ? found.back_without(collection::FilterBy::fits) : 0;
    std::vector<planner::Wanted> wanted;
    for (const collection::TuneNotes& tune : found.rows) {
        if (tune.needed.empty())
            ++answer.without_notes;
        else
            wanted.push_back({tune.id, tune.needed, 1});
        if (!tune.needed.empty() && tune.needed.is_within(answer.have)) ++answer.open_now;
    }
    answer.tunes = static_cast<std::int64_t>(wanted.size());
    const planner::NoteGroups groups = question.by_name ? names_as_groups() : planner::NoteGroups();
    answer.notes = planner::worth_of_notes(wanted, answer.have, groups);
    look_for_fewest(question, wanted, groups, answer);
    return answer;
}

}  // namespace answers
