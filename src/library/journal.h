// The journal of a library: everything a person said, in order. What is kept of people is worked out from it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/date.h"
#include "people/fold.h"
#include "people/link.h"

namespace library {

// Every function throws base::Failure as Library::open_existing does; those that write also as Marks does.

// All links in order. Throws Failure also for a journal that is damaged.
std::vector<people::Link> journal_of(const std::filesystem::path& file);

// All that was said and has not been erased, in order, as it can be read.
std::vector<people::Entry> all_said(const std::filesystem::path& file);

// Takes back what was said last in one go, of whatever; what that was, in order. Empty when there is nothing. Throws
// Failure when it was of a term that was planned: that is taken back by take_back_syllabus, which knows its calendar. A
// player's new name is taken back in terms too.
std::vector<people::Entry> take_back_last(const std::filesystem::path& file, std::optional<base::Date> day);

// Writes the journal as text (people/link.h) to `to`: a new file, for the owner alone, or an earlier export of which
// everything is in this one. How many sayings. Throws Failure for anything else of that name, and for a journal that is
// damaged.
std::int64_t export_journal(const std::filesystem::path& file, const std::filesystem::path& to);

struct TakenIn {
    std::int64_t added = 0;    // sayings that were not here
    std::int64_t erased = 0;   // sayings whose words were erased elsewhere and now are here
    std::int64_t waiting = 0;  // of those said elsewhere, in all: their tune is not here yet

    friend bool operator==(const TakenIn&, const TakenIn&) = default;
};

// The union with another journal, whose tunes are found by melody, failing that by title; what is kept is made anew.
// The same journal again changes nothing. Throws Failure for links that are not as they were sealed.
TakenIn take_in_journal(const std::filesystem::path& file, std::span<const people::Link> links);

// Makes anew all that is worked out from the journal, whatever has become of it; from how many sayings. Throws Failure,
// and nothing is changed, where the journal itself is damaged.
std::int64_t rebuild_kept(const std::filesystem::path& file);

struct JournalFaults {
    std::vector<std::string> said;  // what is wrong with the journal itself, each a sentence
    std::vector<std::string> kept;  // which of the tables that are worked out from it have changed by themselves

    bool empty() const noexcept { return said.empty() && kept.empty(); }
};
JournalFaults faults_of_journal(const std::filesystem::path& file);

// Copies of a library that lie beside it, such as those made before it was brought up to date: their names, ascending.
// What was erased since is still in them.
std::vector<std::string> copies_beside(const std::filesystem::path& file);

}  // namespace library
