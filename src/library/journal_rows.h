// Rows of the journal, and the tables worked out from it. Private to this room.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/date.h"
#include "library/database.h"
#include "library/statement.h"
#include "people/fold.h"
#include "people/link.h"
#include "people/saying.h"
#include "tune/record.h"

namespace library {

// Says things, inside the caller's transaction; all said with one Journal was said in one go. Throws Failure when the
// journal has lost its end.
class Journal {
public:
    Journal(const Database& database, std::optional<base::Date> day);

    people::Seal say(people::Words words);
    std::int64_t last_number() const noexcept { return number_; }  // of the row of what was said last
    std::int64_t last_rank() const noexcept { return sayings_; }   // its place among all sayings

    // As a saying names it.
    people::NamedTune named(std::int64_t own);
    people::NamedTunes named(const std::vector<std::int64_t>& own);

    // Erases the words of these for ever, and says so.
    void erase(const std::vector<people::Seal>& sayings);

private:
    void write_head();

    const Database& database_;
    std::optional<base::Date> day_;
    std::optional<people::Seal> first_;
    std::optional<people::Seal> head_;
    std::int64_t sayings_ = 0;
    std::int64_t clock_ = 0;
    std::int64_t number_ = 0;
    Statement insert_, update_head_, name_;
};

// A tune of another library, by its melody, failing that by its title where only one tune has it.
class TunesHere {
public:
    explicit TunesHere(const Database& database);
    tune::TuneId operator()(const people::NamedTune& tune);

private:
    void look_around();

    const Database& database_;
    Statement same_;
    bool has_looked_ = false;  // most libraries have never heard of another
    std::unordered_map<std::uint64_t, std::int64_t> by_class_;
    std::unordered_map<std::string, std::int64_t> by_title_;  // of one tune alone
};

// In order, of one subject and Subject::journal, or all. Throws Failure for a row that is not as it was
// sealed, and where one is missing.
std::vector<people::Entry> entries_of(const Database& database, people::Subject subject);
std::vector<people::Entry> entries_of(const Database& database);
people::Kept fold_journal(const Database& database, people::Subject subject);

std::vector<people::Link> links_of(const Database& database);

// How many say that they are this library's own and do not stand in its chain, back from the head, or the other way
// round: no seal covers that.
std::int64_t misplaced_sayings(const Database& database);

std::string_view subject_token(people::Subject subject) noexcept;  // `marks`, ...
constexpr people::Subject kSubjects[] = {people::Subject::marks, people::Subject::verdicts, people::Subject::players,
                                         people::Subject::terms};

// Makes the tables of a subject anew, with their sum.
void rebuild(const Database& database, people::Subject subject);

// After a commit: what was erased shall not stand in room that is free either. Throws Failure, which says that the
// change is kept.
void clear_erased(const Database& database);

// After rows may have been lost: the head is made to fit what is there, and where the journal itself is sound all that
// is worked out from it is made anew. Sums are the caller's to store.
void mend_journal(const Database& database);

// syllabi.cc: every text that is kept, those that can be taken back too, as `rewritten` has it, said and done; the
// names of the terms that changed, in order. Throws Failure where what is kept of terms has changed by itself.
std::vector<std::string> rewrite_terms(const Database& database, Journal& journal,
                                       const std::function<std::string(const std::string& text)>& rewritten);

// The same, and of every term that `without` changes the words are erased from the journal.
void forget_in_terms(const Database& database, Journal& journal,
                     const std::function<std::string(const std::string& text)>& without);

// kept_sum.cc: the checksum over the rows of a subject as they are, and as they were when they were last written.
// require_sound throws Failure where the two differ, and looks once a connection.
std::int64_t sum_of_kept(const Database& database, people::Subject subject);
void store_sum(const Database& database, people::Subject subject);
void require_sound(const Database& database, people::Subject subject);

}  // namespace library
