// A term as it is planned, given and kept: one lesson after the other.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "music/note_set.h"
#include "syllabus/cost.h"
#include "syllabus/telling.h"
#include "syllabus/timetable.h"
#include "tune/record.h"

namespace syllabus {

// planned: still to come. taught: given. lost: not held.
enum class LessonState : std::uint8_t { planned, taught, lost };

std::string_view state_token(LessonState state) noexcept;
std::optional<LessonState> parse_state(std::string_view token) noexcept;

// Of each tune in the sets of the last lesson. Source: common practice, no source.
constexpr int kTimesThrough = 3;

// As it was in the library when the lesson was planned, so that a past lesson reads the same for ever.
struct TermTune {
    tune::TuneId id;
    std::string title;
    std::string rhythm;  // a token; empty when unknown
    music::NoteSet needed;
    Use use = Use::none;  // of the newest notes, `times` struck and `strong` of these on a strong beat
    int times = 0;
    int strong = 0;
    int hardness = 0;
    int seconds = 0;  // to play it kTimesThrough times

    friend bool operator==(const TermTune&, const TermTune&) = default;
};

struct NewNotes {
    music::NoteSet notes;
    std::int64_t opens = 0;             // tunes, of all that were asked for
    std::vector<std::string> learners;  // where several players are known by name: those who lack it

    friend bool operator==(const NewNotes&, const NewNotes&) = default;
};

struct Lesson {
    base::Date date;
    LessonState state = LessonState::planned;
    bool only_goes_over = false;  // nothing new: the last, or the first after a break
    std::optional<NewNotes> notes;
    std::vector<TermTune> tunes;
    std::vector<TermTune> again;  // tunes that return

    bool is_held() const noexcept { return state != LessonState::lost; }
    bool brings_nothing() const noexcept { return is_held() && !notes && tunes.empty(); }
    friend bool operator==(const Lesson&, const Lesson&) = default;
};

// Tunes of one rhythm, played in one go.
struct ClosingSet {
    std::string rhythm;  // empty when unknown
    std::vector<TermTune> tunes;
    int seconds = 0;

    friend bool operator==(const ClosingSet&, const ClosingSet&) = default;
};

struct Outcome {
    Cost cost;
    Cost bound;
    std::size_t states = 0;
    std::size_t steps_possible = 0;  // that could come in the time
    bool path_is_proven = true;      // the order of the notes is the best there is

    friend bool operator==(const Outcome&, const Outcome&) = default;
};

struct Syllabus {
    std::string name;
    std::int64_t revision = 0;  // how often it was planned again
    base::Date planned_on;
    std::string asked = "{}";  // what it was asked for with: JSON that answers/stored_request.h reads
    music::NoteSet have;       // before the first lesson
    std::vector<Lesson> lessons;
    std::vector<ClosingSet> closing;  // for the last lesson
    std::vector<Telling> unmet;       // what it was asked for with and cannot be
    std::vector<Telling> remarks;     // what is worth knowing
    Outcome outcome;                  // of the lessons planned last

    friend bool operator==(const Syllabus&, const Syllabus&) = default;
};

}  // namespace syllabus
