// The journal of a library: everything a person said, in order. What is kept of people is worked out from it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

#include "people/link.h"

namespace library {

// Every function throws base::Failure as Library::open_existing does; those that write also as Marks does.

// All links in order, as they lie there: not checked.
std::vector<people::Link> journal_of(const std::filesystem::path& file);

struct TakenIn {
    std::int64_t added = 0;   // sayings that were not here
    std::int64_t erased = 0;  // sayings whose words were erased elsewhere and now are here

    friend bool operator==(const TakenIn&, const TakenIn&) = default;
};

// The union with another journal, whose tunes are found by melody, failing that by title; what is kept is made anew.
// The same journal again changes nothing. Throws Failure for links that are not as they were sealed.
TakenIn take_in_journal(const std::filesystem::path& file, std::span<const people::Link> links);

// Makes anew all that is worked out from the journal, whatever has become of it. Throws Failure, and nothing is
// changed, where the journal itself is damaged.
void rebuild_kept(const std::filesystem::path& file);

// Each a sentence: what is wrong with the journal, and which of the tables that are worked out from it disagree with
// it. Empty: all is well.
std::vector<std::string> faults_of_journal(const std::filesystem::path& file);

// Copies of a library that lie beside it, such as those made before it was brought up to date: their names, ascending.
// What was erased since is still in them.
std::vector<std::string> copies_beside(const std::filesystem::path& file);

}  // namespace library
