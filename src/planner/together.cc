#include "planner/together.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace planner {

namespace {

using Missing = std::pair<std::uint64_t, std::uint64_t>;  // the halves of a NoteSet

std::vector<std::size_t> learners_of(const music::NoteSet& notes, std::span<const Member> members) {
    std::vector<std::size_t> learners;
    for (std::size_t at = 0; at < members.size(); ++at)
        if (!notes.is_within(members[at].have)) learners.push_back(at);
    return learners;
}

void sort_by_use(std::vector<SharedNotes>& found) {
    std::stable_sort(found.begin(), found.end(), [](const SharedNotes& a, const SharedNotes& b) {
        return std::tuple(a.notes.size(), a.learners.size(), b.opens.size()) <
               std::tuple(b.notes.size(), b.learners.size(), a.opens.size());
    });
}

// Whether nobody but `group`'s learners could open as much with one note or a smaller group.
bool is_worth_it(const SharedNotes& group, const std::vector<SharedNotes>& others) {
    return std::none_of(others.begin(), others.end(), [&](const SharedNotes& other) {
        return other.notes.size() < group.notes.size() && other.opens.size() >= group.opens.size() &&
               std::includes(group.learners.begin(), group.learners.end(), other.learners.begin(),
                             other.learners.end());
    });
}

}  // namespace

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
    std::vector<std::pair<music::NoteSet, tune::TuneId>> nearly;  // what few notes would open
    std::map<Missing, SharedNotes> asked;
    for (const Wanted& tune : wanted) {
        const music::NoteSet missing = tune.needed.without(found.common);
        if (missing.empty()) found.now.push_back(tune.id);
        if (!tune.needed.is_within(reach | found.common)) ++found.out_of_reach;
        if (missing.empty() || missing.size() > kMostInGroup || !missing.is_within(reach)) continue;
        nearly.emplace_back(missing, tune.id);
        asked[{missing.low(), missing.high()}].notes = missing;
    }
    std::vector<SharedNotes> all;
    for (auto& [missing, notes] : asked) {
        notes.learners = learners_of(notes.notes, members);
        for (const auto& [needed, id] : nearly)
            if (needed.is_within(notes.notes)) notes.opens.push_back(id);
        all.push_back(std::move(notes));
    }
    std::stable_sort(all.begin(), all.end(), [](const SharedNotes& a, const SharedNotes& b) {
        return a.notes.midi_numbers() < b.notes.midi_numbers();
    });
    sort_by_use(all);
    for (const SharedNotes& notes : all)
        if (notes.notes.size() == 1)
            found.notes.push_back(notes);
        else if (is_worth_it(notes, all))
            found.groups.push_back(notes);
    return found;
}

}  // namespace planner
