// Sayings in a chain: each is sealed together with the one said before it, so that none can be changed or lost unseen.
// Where two computers go on from one library, or a journal is brought home, the chain branches; the union of two
// journals is the union of their links, by seal.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "people/saying.h"

namespace people {

struct Link {
    Seal seal;
    std::optional<Seal> before;  // of the one said before it; empty for a first one
    // From 1, one more than the greatest known where and when it was said: what was said in knowledge of something
    // comes after it, on every computer.
    std::int64_t clock = 1;
    std::string words_seal;            // checksum of the words alone; stays when they are erased
    std::optional<std::string> words;  // as write_saying makes them; empty: erased

    friend bool operator==(const Link&, const Link&) = default;
};

// The order in which sayings hold, the same everywhere: by clock, of one clock by seal.
bool comes_before(const Link& one, const Link& other) noexcept;

// XXH3, 128 bits: sees every slip of a disk, and withstands nobody who means harm.
std::string seal_of_words(std::string_view words);
Seal seal_of(const std::optional<Seal>& before, std::int64_t clock, std::string_view words_seal);
Link link_of(std::optional<Seal> before, std::int64_t clock, std::string words);

struct LinkFault {
    Seal seal;         // of the link
    std::string what;  // `its words are not those that were sealed`

    friend bool operator==(const LinkFault&, const LinkFault&) = default;
};

// All that is wrong with `links`, in their order: words or seals that do not agree, words missing that nobody erased,
// words that cannot be read, a link before that is missing. Words that were erased and said to be are no fault.
std::vector<LinkFault> faults_of(std::span<const Link> links);

// Those whose words were erased and said to be.
std::vector<Seal> erased_in(std::span<const Link> links);

// Each link once, in order; where one side says that words were erased, they are.
std::vector<Link> union_of(std::span<const Link> ours, std::span<const Link> theirs);

// A journal as text: a first line that says what it is, then one line of JSON a link, in order, each ended by a
// newline. The same links make the same bytes. read_journal throws SayingFault, which names the line, for a text that
// is no such journal or has a link that is not as it was sealed.
std::string write_journal(std::span<const Link> in_order);
std::vector<Link> read_journal(std::string_view text);

}  // namespace people
