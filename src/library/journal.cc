// Tested by journal_test.cc and rebuild_test.cc.
#include "library/journal.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/failure.h"
#include "library/existing_library.h"
#include "library/families.h"
#include "library/journal_rows.h"

namespace library {

namespace {

void make_all_anew(const Database& database) {
    for (const people::Subject subject : kSubjects) rebuild(database, subject);
    settle_families(database);
}

// What is wrong with the journal itself, each a sentence.
std::vector<std::string> faults_in(const Database& database) {
    std::vector<std::string> faults;
    const std::vector<people::Link> links = links_of(database);
    for (const people::LinkFault& fault : people::faults_of(links))
        faults.push_back("saying " + fault.seal + ": " + fault.what);
    Statement head(database,
                   "SELECT h.sayings, h.seal, s.id FROM journal_head h LEFT JOIN saying s ON s.seal = h.seal");
    if (!head.step())
        faults.emplace_back("the journal has no head");
    else {
        if (head.number(0) != static_cast<std::int64_t>(links.size()))
            faults.push_back("the journal has " + std::to_string(links.size()) + " sayings, and should have " +
                             std::to_string(head.number(0)));
        if (!head.is_null(1) && head.is_null(2)) faults.emplace_back("the last saying of the journal is missing");
    }
    Statement kinds(database, "SELECT id, kind, words FROM saying WHERE words IS NOT NULL ORDER BY id");
    while (kinds.step()) {
        try {
            if (people::kind_of(people::read_saying(kinds.text(2)).words) != kinds.text(1))
                faults.push_back("saying " + std::to_string(kinds.number(0)) + ": its kind has changed by itself");
        } catch (const people::SayingFault&) {  // told above
        }
    }
    return faults;
}

}  // namespace

std::vector<people::Link> journal_of(const std::filesystem::path& file) {
    return links_of(*open_existing_library(file, Access::read));
}

TakenIn take_in_journal(const std::filesystem::path& file, std::span<const people::Link> links) {
    const auto database = open_existing_library(file, Access::write);
    database->exec("PRAGMA secure_delete = ON");  // what was erased elsewhere
    Transaction transaction(*database);
    const std::vector<people::Link> ours = links_of(*database);
    std::map<people::Seal, const people::Link*> here;
    for (const people::Link& link : ours) here.emplace(link.seal, &link);

    TakenIn taken;
    const std::vector<people::Link> all = people::union_of(ours, links);
    if (const auto faults = people::faults_of(all); !faults.empty())
        throw base::Failure("take in", "the journal", "of saying " + faults.front().seal + ": " + faults.front().what);
    Statement insert(*database,
                     "INSERT INTO saying (seal, before, clock, words_seal, is_from_elsewhere, kind, words)"
                     " VALUES (?1, ?2, ?3, ?4, 1, ?5, ?6)");
    Statement erase(*database, "UPDATE saying SET kind = NULL, words = NULL WHERE seal = ?1");
    std::int64_t clock = 0;
    for (const people::Link& link : all) {
        clock = std::max(clock, link.clock);
        const auto known = here.find(link.seal);
        if (known == here.end()) {
            const auto kind =
                link.words ? std::optional(people::kind_of(people::read_saying(*link.words).words)) : std::nullopt;
            insert.bind(link.seal, link.before, link.clock, link.words_seal, kind, link.words).run();
            ++taken.added;
        } else if (known->second->words && !link.words) {
            erase.bind(link.seal).run();
            ++taken.erased;
        }
    }
    if (taken == TakenIn{}) return taken;
    Statement(*database, "UPDATE journal_head SET sayings = ?1, clock = ?2 WHERE id = 1")
        .bind(static_cast<std::int64_t>(all.size()), clock)
        .run();
    make_all_anew(*database);
    transaction.commit();
    if (taken.erased > 0) database->exec_unless_busy("VACUUM");
    return taken;
}

std::vector<std::string> copies_beside(const std::filesystem::path& file) {
    std::vector<std::string> copies;
    const std::string beginning = file.filename().string() + ".";
    const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : ".";
    std::error_code error;
    for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error))
        if (const std::string name = entry->path().filename().string();
            name.starts_with(beginning) && entry->is_regular_file(error))
            copies.push_back(name);
    std::sort(copies.begin(), copies.end());
    return copies;
}

void rebuild_kept(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    if (const std::vector<std::string> faults = faults_in(*database); !faults.empty())
        throw base::Failure("read", database->file(), "what people said is damaged: " + faults.front());
    make_all_anew(*database);
    transaction.commit();
}

std::vector<std::string> faults_of_journal(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");
    std::vector<std::string> faults = faults_in(*database);
    for (const people::Subject subject : kSubjects) {
        const std::string of(subject_token(subject));
        try {
            require_sound(*database, subject);
        } catch (const base::Failure&) {
            faults.push_back("what is kept of " + of + " has changed by itself");
        }
    }
    return faults;
}

}  // namespace library
