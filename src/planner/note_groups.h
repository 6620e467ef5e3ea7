// Which notes are learnt together, and how long that takes. A note by itself is a group of one.
#pragma once

#include <array>
#include <cstdint>
#include <span>

#include "music/note_set.h"

namespace planner {

// Learning times are whole numbers in whatever unit the user counts in.
constexpr std::int64_t kLongestTime = 100;

// Every group goes by its lead, its lowest note: the planner works on sets of leads, one for each group.
class NoteGroups {
public:
    // Every note by itself, in time 1.
    NoteGroups() noexcept;

    // `notes` are learnt in one go, in `time` (1 to kLongestTime). They must be in no other group yet, and not be
    // empty.
    void join(const music::NoteSet& notes, std::int64_t time);

    // Of a note that is in no group of several. 1 to kLongestTime.
    void set_time(int note, std::int64_t time);

    music::NoteSet group_of(int lead) const noexcept;
    std::int64_t time_of(int lead) const noexcept { return time_[static_cast<std::size_t>(lead)]; }
    int lead_of(int note) const noexcept { return lead_[static_cast<std::size_t>(note)]; }

    // The leads of the groups that hold any of the notes.
    music::NoteSet leads_of(const music::NoteSet& notes) const noexcept;
    // All notes of the groups with these leads.
    music::NoteSet notes_under(const music::NoteSet& leads) const noexcept;
    // To learn all groups with these leads.
    std::int64_t time_of(const music::NoteSet& leads) const noexcept;

private:
    std::array<std::uint8_t, music::kMidiNotes> lead_{};     // by note
    std::array<std::int64_t, music::kMidiNotes> time_{};     // by lead
    std::array<music::NoteSet, music::kMidiNotes> group_{};  // by lead
    music::NoteSet joined_;                                  // leads of groups of several
};

}  // namespace planner
