// The words a term was asked for with, `--from=2027-01-12`, `--must=33 by 2`: what becomes of them while it is kept.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "library/library.h"
#include "music/note_set.h"
#include "tune/player.h"

namespace cli {

// `TUNE by DATE`, `TUNE by 3`, `TUNE`; what follows the last " by " belongs to the title where it is more than digits.
struct MustWords {
    std::string title;
    std::optional<base::Date> by_date;
    std::optional<int> by_lesson;
};

// Throws Misuse for a day or a lesson that there is not.
MustWords read_must(const std::string& text);

// The words for the same term from another day: breaks are left out, days by which a tune must come move along, and
// what is asked for in `besides` stands in the place of what was: notes and players in that of both. Throws Misuse.
std::vector<std::string> moved_words(const std::vector<std::string>& words, const std::string& from,
                                     const std::vector<std::string>& besides);

// The same words with tunes named by their ids, so that they mean the same tunes whatever becomes of titles, and the
// notes of a player (@NAME) as they are now. Throws answers::Refused where one is no tune, or may be several.
std::vector<std::string> words_with_ids(const std::vector<std::string>& words, const collection::Collection& library);

// The same words without players that are no longer there, which `notices` tells; where nobody is left, `have` stands
// in their place.
std::vector<std::string> words_for_those_left(const std::vector<std::string>& words,
                                              const collection::Collection& library, const music::NoteSet& have,
                                              std::vector<std::string>& notices);

// The tunes that --must, --begin and --without name, once they are named by ids.
std::vector<tune::TuneId> tunes_in_words(const std::vector<std::string>& words);

// Stands in terms for a player who was removed, and whose name is kept nowhere.
constexpr std::string_view kRemovedPlayer = "a removed player";

// The players of --for.
std::vector<std::string> players_in_words(const std::vector<std::string>& words);

// The same words with another name for one of them.
std::vector<std::string> words_renamed(std::vector<std::string> words, const tune::PlayerName& from,
                                       const std::string& to);

// The same words with kRemovedPlayer for the name of somebody who is no player any longer, and in the place of whatever
// else says it.
std::vector<std::string> words_unnamed(std::vector<std::string> words, const tune::PlayerName& name);

}  // namespace cli
