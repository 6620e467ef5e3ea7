// Counting, one pass over the tunes. Tested by tests/unit/planner/note_worth_test.cc.
#include "planner/note_worth.h"

#include <algorithm>
#include <array>

namespace planner {

std::vector<NoteWorth> worth_of_notes(std::span<const Wanted> wanted, const music::NoteSet& have,
                                      const NoteGroups& groups) {
    std::array<NoteWorth, music::kMidiNotes> worth{};
    music::NoteSet all = have;
    for (const Wanted& tune : wanted) {
        all = all | tune.needed;
        const music::NoteSet missing = groups.leads_of(tune.needed.without(have));
        for (const int lead : groups.leads_of(tune.needed).midi_numbers()) {
            NoteWorth& note = worth[static_cast<std::size_t>(lead)];
            ++note.uses;
            if (missing.empty()) ++note.lost;
        }
        if (missing.size() == 1) ++worth[static_cast<std::size_t>(missing.lowest())].opens;
    }
    std::vector<NoteWorth> rows;
    for (const int lead : groups.leads_of(all).midi_numbers()) {
        NoteWorth& note = worth[static_cast<std::size_t>(lead)];
        note.lead = lead;
        const music::NoteSet notes = groups.group_of(lead) & all;
        if (notes.is_within(have))
            note.had = Had::yes;
        else if (!(notes & have).empty())
            note.had = Had::in_part;
        rows.push_back(note);
    }
    std::stable_sort(rows.begin(), rows.end(), [](const NoteWorth& a, const NoteWorth& b) { return a.uses > b.uses; });
    return rows;
}

std::vector<Demand> needs_of(std::span<const Wanted> wanted, const NoteGroups& groups) {
    std::vector<Demand> demands;
    demands.reserve(wanted.size());
    for (const Wanted& tune : wanted) demands.push_back({groups.leads_of(tune.needed), tune.weight, 1});
    return demands;
}

}  // namespace planner
