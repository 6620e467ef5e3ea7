#include "planner/together.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace planner {

Together play_together(std::span<const Wanted> wanted, std::span<const Member> members) {
    Together found;
    found.common = members.front().have;
    music::NoteSet reach = members.front().reach;
    for (const Member& member : members) {
        found.common = found.common & member.have;
        reach = reach & member.reach;
        found.own.push_back(std::count_if(wanted.begin(), wanted.end(),
                                          [&](const Wanted& tune) { return tune.needed.is_within(member.have); }));
    }
    std::map<int, SharedNote> notes;
    for (const Wanted& tune : wanted) {
        const music::NoteSet missing = tune.needed.without(found.common);
        if (missing.empty()) found.now.push_back(tune.id);
        if (!tune.needed.is_within(reach | found.common)) ++found.out_of_reach;
        if (missing.size() != 1 || !missing.is_within(reach)) continue;
        SharedNote& note = notes[missing.lowest()];
        note.midi = missing.lowest();
        note.opens.push_back(tune.id);
    }
    for (auto& [midi, note] : notes) {
        for (std::size_t at = 0; at < members.size(); ++at)
            if (!members[at].have.has(midi)) note.learners.push_back(at);
        found.notes.push_back(std::move(note));
    }
    std::stable_sort(found.notes.begin(), found.notes.end(), [](const SharedNote& a, const SharedNote& b) {
        return std::tuple(a.learners.size(), -static_cast<std::int64_t>(a.opens.size())) <
               std::tuple(b.learners.size(), -static_cast<std::int64_t>(b.opens.size()));
    });
    return found;
}

}  // namespace planner
