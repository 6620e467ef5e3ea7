// What is told of a plan, as kinds and numbers: what could not be met, and what is worth knowing. Words are the
// business of who shows it. Lessons count from 1; titles and names are those of the day it was planned.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.h"
#include "music/note_set.h"

namespace syllabus {

// Of a term that was kept while plans told in sentences.
struct InWords {
    std::string sentence;

    friend bool operator==(const InWords&, const InWords&) = default;
};

// When a tune was to come at the latest: one of these, or with none of them in this term.
struct Until {
    std::optional<base::Date> date;
    std::optional<std::int64_t> lesson;
    std::optional<std::int64_t> new_tune;  // of the term, which it was to be

    friend bool operator==(const Until&, const Until&) = default;
};

// How many new notes there is time for, and the pace that decides it.
struct TimeForNotes {
    std::int64_t notes = 0;
    std::int64_t notes_every = 1;             // lessons
    std::optional<std::int64_t> in_all = {};  // in the term at most

    friend bool operator==(const TimeForNotes&, const TimeForNotes&) = default;
};

// Why a tune cannot come.

// No lesson in which something new may come is held in that time.
struct NoLessonInTime {
    friend bool operator==(const NoLessonInTime&, const NoLessonInTime&) = default;
};

struct NotOnEveryInstrument {
    music::NoteSet notes;

    friend bool operator==(const NotOnEveryInstrument&, const NotOnEveryInstrument&) = default;
};

struct NoTimeForNotes {
    music::NoteSet notes;  // that it needs and that are not there
    TimeForNotes time;
    std::int64_t lesson = 0;        // by which
    bool others_need_some = false;  // time there would be, but for the notes of other tunes that must come

    friend bool operator==(const NoTimeForNotes&, const NoTimeForNotes&) = default;
};

struct NoRoom {
    std::int64_t tunes = 0;   // that must have come, this one among them
    std::int64_t lesson = 0;  // by this one, the last that has room for something new in time
    std::int64_t room = 0;    // for tunes
    bool is_last = false;     // of the term: with more lessons there would be more room

    friend bool operator==(const NoRoom&, const NoRoom&) = default;
};

// The other tunes that must come leave no place for it.
struct NoPlaceLeft {
    friend bool operator==(const NoPlaceLeft&, const NoPlaceLeft&) = default;
};

using Hindrance = std::variant<NoLessonInTime, NotOnEveryInstrument, NoTimeForNotes, NoRoom, NoPlaceLeft>;

// What could not be met.

struct CameLate {
    std::string title;
    Until until;
    std::int64_t lesson = 0;  // in which it came

    friend bool operator==(const CameLate&, const CameLate&) = default;
};

struct CannotCome {
    std::string title;
    Until until;
    Hindrance why;
    std::optional<std::int64_t> comes_in = {};  // a later lesson

    friend bool operator==(const CannotCome&, const CannotCome&) = default;
};

struct FileGone {
    std::string title;

    friend bool operator==(const FileGone&, const FileGone&) = default;
};

// With which the term was to begin.
struct NotesCannotCome {
    music::NoteSet notes;
    std::optional<TimeForNotes> time = {};  // too little; without it the tunes that must come leave no place

    friend bool operator==(const NotesCannotCome&, const NotesCannotCome&) = default;
};

// What is worth knowing.

// Wanted first, and there from the start.
struct HadAlready {
    music::NoteSet notes;

    friend bool operator==(const HadAlready&, const HadAlready&) = default;
};

// Not there at the start, and everyone has learnt them by now.
struct LearntSince {
    music::NoteSet notes;

    friend bool operator==(const LearntSince&, const LearntSince&) = default;
};

struct ScrapsLeftAside {
    std::int64_t tunes = 0;

    friend bool operator==(const ScrapsLeftAside&, const ScrapsLeftAside&) = default;
};

// The players know them, are learning them or will not learn them.
struct SettledLeftOut {
    std::int64_t tunes = 0;

    friend bool operator==(const SettledLeftOut&, const SettledLeftOut&) = default;
};

// Because no fewer open a tune.
struct ManyNotesAtOnce {
    std::int64_t lesson = 0;
    std::int64_t notes = 0;

    friend bool operator==(const ManyNotesAtOnce&, const ManyNotesAtOnce&) = default;
};

// In the last lesson that is held.
struct NewInLastLesson {
    friend bool operator==(const NewInLastLesson&, const NewInLastLesson&) = default;
};

// For new tunes, because no tune is left that fits.
struct EmptyPlaces {
    std::int64_t places = 0;

    friend bool operator==(const EmptyPlaces&, const EmptyPlaces&) = default;
};

struct KnownToSome {
    std::string title;
    std::int64_t lesson = 0;
    std::vector<std::string> players;  // who know it or are learning it

    friend bool operator==(const KnownToSome&, const KnownToSome&) = default;
};

// The lesson brings nothing new: it is the first after more than kLongestWait without one.
struct AfterBreak {
    std::int64_t lesson = 0;

    friend bool operator==(const AfterBreak&, const AfterBreak&) = default;
};

// For the second time, because no lesson to come lies kSoonest to kLatest days after it was new.
struct ReturnsLate {
    std::string title;
    std::int64_t days = 0;

    friend bool operator==(const ReturnsLate&, const ReturnsLate&) = default;
};

using Telling =
    std::variant<InWords, CameLate, CannotCome, FileGone, NotesCannotCome, HadAlready, LearntSince, ScrapsLeftAside,
                 SettledLeftOut, ManyNotesAtOnce, NewInLastLesson, EmptyPlaces, KnownToSome, AfterBreak, ReturnsLate>;

}  // namespace syllabus
