// What is kept of tunes and people: all that a journal comes to, as plain values. Tunes are own ids of the library at
// hand.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "base/date.h"
#include "music/key.h"
#include "music/note_set.h"
#include "people/saying.h"
#include "tune/player.h"

namespace people {

using TuneNumber = std::int64_t;
using PlayerNumber = std::int64_t;  // of the saying that added the player

// `said`: the rank of the saying, 1 for the first of all; later words have the greater.
struct KeptRhythm {
    std::string rhythm;
    std::int64_t said = 0;
    friend bool operator==(const KeptRhythm&, const KeptRhythm&) = default;
};
struct KeptKey {
    music::Key key;
    std::int64_t said = 0;
    friend bool operator==(const KeptKey&, const KeptKey&) = default;
};
struct KeptAlias {
    std::string text;  // as written last
    TuneNumber tune = 0;
    friend bool operator==(const KeptAlias&, const KeptAlias&) = default;
};
struct KeptVerdict {
    bool is_same = true;
    std::int64_t said = 0;
    friend bool operator==(const KeptVerdict&, const KeptVerdict&) = default;
};
struct KeptPlayer {
    std::string name;
    std::string folded;
    std::optional<std::string> instrument;
    std::optional<music::NoteSet> notes;
    friend bool operator==(const KeptPlayer&, const KeptPlayer&) = default;
};
struct KeptEvent {
    PlayerNumber player = 0;
    TuneNumber tune = 0;
    tune::DatedEvent what;
    std::optional<std::int64_t> place;  // among the ranks of its day, where its own rank does not say it
    friend bool operator==(const KeptEvent&, const KeptEvent&) = default;
};
struct KeptClass {
    std::string name;                // as said last
    std::set<PlayerNumber> players;  // never empty
    friend bool operator==(const KeptClass&, const KeptClass&) = default;
};
struct KeptTerm {
    std::string name;
    std::string text;
    std::optional<std::string> before;  // what can be taken back to
    friend bool operator==(const KeptTerm&, const KeptTerm&) = default;
};

struct Kept {
    std::map<std::string, std::string> tags;                    // folded: as first written, of those some tune has
    std::set<std::pair<TuneNumber, std::string>> tunes_tagged;  // with the folded tag
    std::map<TuneNumber, std::int64_t> counts;
    std::map<TuneNumber, KeptRhythm> rhythms;
    std::map<TuneNumber, KeptKey> keys;
    std::map<std::string, KeptAlias> aliases;  // by what is written, as tune::fold_title leaves it
    std::map<std::pair<TuneNumber, TuneNumber>, KeptVerdict> verdicts;  // the lesser tune first
    std::map<PlayerNumber, KeptPlayer> players;
    std::map<Seal, PlayerNumber> player_seals;  // whom a saying means by each seal
    std::map<std::int64_t, KeptEvent> events;   // by the rank of the saying
    std::set<std::pair<PlayerNumber, TuneNumber>> wishes;
    std::map<std::pair<PlayerNumber, TuneNumber>, std::string> exclusions;  // with the reason
    std::map<std::string, KeptClass> classes;  // by the name, as tune::fold_player_name leaves it
    std::map<std::string, KeptTerm> terms;     // by the folded name

    friend bool operator==(const Kept&, const Kept&) = default;
};

}  // namespace people
