// What a person said, as values: of tunes, of players, of terms. A saying is kept for ever and never changed; what
// stands of tunes and people is worked out from all of them (fold.h). Nothing here knows SQL, files or clocks, so that
// whatever runs gamut can hold a journal.
#pragma once

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/date.h"
#include "music/key.h"
#include "music/note_set.h"
#include "tune/player.h"
#include "tune/record.h"

namespace people {

// 32 hexadecimal digits that name a saying everywhere: a checksum over it and the one before it (link.h).
using Seal = std::string;

// A tune as a saying names it: by its own id in the library it was said in, and for any other library by its melody and
// its title.
struct NamedTune {
    tune::TuneId id;                            // TuneRecord::own
    std::optional<std::uint64_t> melody_class;  // as in TuneFacts, when it was said
    std::string title;                          // the first, when it was said; empty where there was none

    friend bool operator==(const NamedTune&, const NamedTune&) = default;
};
using NamedTunes = std::vector<NamedTune>;

// In `instead_of` stand tunes that were one with the tune when it was said and of which something had been said that no
// longer holds.

struct TagGiven {
    NamedTune tune;
    std::string tag;  // as written
    friend bool operator==(const TagGiven&, const TagGiven&) = default;
};
struct TagTaken {
    NamedTune tune;
    NamedTunes instead_of;
    std::string tag;  // folded, as tune::fold_tag does
    friend bool operator==(const TagTaken&, const TagTaken&) = default;
};
struct CountSaid {
    NamedTune tune;
    NamedTunes instead_of;
    std::optional<std::int64_t> times;  // from 0; empty: nobody says any more, and so below
    friend bool operator==(const CountSaid&, const CountSaid&) = default;
};
struct RhythmSaid {
    NamedTune tune;
    NamedTunes instead_of;
    std::optional<std::string> rhythm;  // a token
    friend bool operator==(const RhythmSaid&, const RhythmSaid&) = default;
};
struct KeySaid {
    NamedTune tune;
    NamedTunes instead_of;
    std::optional<music::Key> key;
    friend bool operator==(const KeySaid&, const KeySaid&) = default;
};
// What the person writes for a tune: from now on it means this one.
struct AliasSaid {
    NamedTune tune;
    std::string alias;  // as written
    friend bool operator==(const AliasSaid&, const AliasSaid&) = default;
};
struct AliasGone {
    std::string folded;  // as tune::fold_title does
    friend bool operator==(const AliasGone&, const AliasGone&) = default;
};
struct SameSaid {
    NamedTune one;
    NamedTune other;
    bool is_same = true;
    friend bool operator==(const SameSaid&, const SameSaid&) = default;
};

// A player is named by the seal of the saying that brought the player in.
struct PlayerAdded {
    std::string name;  // as shown
    std::optional<std::string> instrument;
    std::optional<music::NoteSet> notes;
    friend bool operator==(const PlayerAdded&, const PlayerAdded&) = default;
};
struct PlayerChanged {
    Seal player;
    std::optional<std::string> name;        // from now on, where given
    std::optional<std::string> instrument;  // the same
    friend bool operator==(const PlayerChanged&, const PlayerChanged&) = default;
};
enum class NotesChange : std::uint8_t { are, more, less };
struct NotesSaid {
    Seal player;
    NotesChange change = NotesChange::are;
    std::optional<music::NoteSet> notes;  // empty, with `are` alone: only those of the tunes
    friend bool operator==(const NotesSaid&, const NotesSaid&) = default;
};
struct PlayerGone {
    Seal player;
    friend bool operator==(const PlayerGone&, const PlayerGone&) = default;
};
struct Happened {
    Seal player;
    NamedTune tune;
    NamedTunes among;  // with is_first: the others of its family, whose events of that day it goes before too
    tune::DatedEvent what;
    bool is_first = false;  // before all else of that tune and day that had been said
    friend bool operator==(const Happened&, const Happened&) = default;
};
struct WishSaid {
    Seal player;
    NamedTune tune;
    NamedTunes instead_of;
    bool is_wished = true;
    friend bool operator==(const WishSaid&, const WishSaid&) = default;
};
struct ExclusionSaid {
    Seal player;
    NamedTune tune;
    NamedTunes instead_of;
    std::optional<std::string> reason;  // may be an empty text; empty: allowed
    friend bool operator==(const ExclusionSaid&, const ExclusionSaid&) = default;
};

// Players under one name: from now on these.
struct ClassSaid {
    std::string name;  // as shown
    std::vector<Seal> members;
    friend bool operator==(const ClassSaid&, const ClassSaid&) = default;
};
struct ClassGone {
    std::string folded;  // as tune::fold_player_name does
    friend bool operator==(const ClassGone&, const ClassGone&) = default;
};

struct TermSaid {
    std::string name;          // as shown
    std::string folded;        // as compared
    std::string text;          // the whole term, as syllabus/stored_syllabus.h writes it
    bool is_restated = false;  // the same in other words: there is nothing to take back of it
    friend bool operator==(const TermSaid&, const TermSaid&) = default;
};
struct TermGone {
    std::string folded;
    friend bool operator==(const TermGone&, const TermGone&) = default;
};

// As if these had never been said. A TakenBack may itself be taken back.
struct TakenBack {
    std::vector<Seal> sayings;
    friend bool operator==(const TakenBack&, const TakenBack&) = default;
};
// The words of these are erased for ever: the gaps are meant.
struct Erased {
    std::vector<Seal> sayings;
    friend bool operator==(const Erased&, const Erased&) = default;
};

using Words = std::variant<TagGiven, TagTaken, CountSaid, RhythmSaid, KeySaid, AliasSaid, AliasGone, SameSaid,
                           PlayerAdded, PlayerChanged, NotesSaid, PlayerGone, Happened, WishSaid, ExclusionSaid,
                           ClassSaid, ClassGone, TermSaid, TermGone, TakenBack, Erased>;

struct Saying {
    Words words;
    std::optional<base::Date> day;  // it was said; empty when nobody knows any longer
    std::optional<Seal> with;       // the first of those said in one go; empty for the first itself

    friend bool operator==(const Saying&, const Saying&) = default;
};

// What sayings are about; each can be worked out without the others. `journal`: other sayings.
enum class Subject : std::uint8_t { marks, verdicts, players, terms, journal };
Subject subject_of(std::string_view kind) noexcept;  // `journal` for a kind that is unknown

// `tag`, `untag`, `count` ...: spelled here once, and in schema/journal.md.
std::string_view kind_of(const Words& words) noexcept;
bool is_known_kind(std::string_view kind) noexcept;

// What a saying is of, where it is of one tune, or of a player: `nullptr` where it is not.
const NamedTune* tune_of(const Words& words) noexcept;
const Seal* player_of(const Words& words) noexcept;

// Why a text is no saying, in a few words for a sentence about the journal.
class SayingFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// One line of JSON as schema/journal.md has it. `salt`: 32 hexadecimal digits nobody can guess; it makes sure that a
// checksum tells nothing of words that were erased. read_saying throws SayingFault for anything it does not understand
// whole.
std::string write_saying(const Saying& saying, std::string_view salt);
Saying read_saying(std::string_view text);

}  // namespace people
