#include "planner/note_groups.h"

#include "base/invariant.h"

namespace planner {

NoteGroups::NoteGroups() noexcept {
    for (int note = 0; note < music::kMidiNotes; ++note) {
        const auto place = static_cast<std::size_t>(note);
        lead_[place] = static_cast<std::uint8_t>(note);
        time_[place] = 1;
        group_[place].add(note);
    }
}

void NoteGroups::join(const music::NoteSet& notes, std::int64_t time) {
    INVARIANT(!notes.empty() && time >= 1 && time <= kLongestTime);
    const int lead = notes.lowest();
    for (const int note : notes.midi_numbers()) {
        const auto place = static_cast<std::size_t>(note);
        INVARIANT(lead_[place] == note && !joined_.has(note));
        lead_[place] = static_cast<std::uint8_t>(lead);
        group_[place] = {};
    }
    group_[static_cast<std::size_t>(lead)] = notes;
    time_[static_cast<std::size_t>(lead)] = time;
    if (notes.size() > 1) joined_.add(lead);
}

void NoteGroups::set_time(int note, std::int64_t time) {
    INVARIANT(time >= 1 && time <= kLongestTime && group_of(note).size() == 1);
    time_[static_cast<std::size_t>(note)] = time;
}

music::NoteSet NoteGroups::group_of(int lead) const noexcept { return group_[static_cast<std::size_t>(lead)]; }

music::NoteSet NoteGroups::leads_of(const music::NoteSet& notes) const noexcept {
    if (joined_.empty()) return notes;
    music::NoteSet leads;
    for (const int note : notes.midi_numbers()) leads.add(lead_of(note));
    return leads;
}

music::NoteSet NoteGroups::notes_under(const music::NoteSet& leads) const noexcept {
    if ((joined_ & leads).empty()) return leads;
    music::NoteSet notes;
    for (const int lead : leads.midi_numbers()) notes = notes | group_of(lead);
    return notes;
}

std::int64_t NoteGroups::time_of(const music::NoteSet& leads) const noexcept {
    std::int64_t time = 0;
    for (const int lead : leads.midi_numbers()) time += time_of(lead);
    return time;
}

}  // namespace planner
