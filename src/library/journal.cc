// Tested by journal_test.cc and rebuild_test.cc.
#include "library/journal.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <set>

#include "base/failure.h"
#include "base/file_bytes.h"
#include "library/existing_library.h"
#include "library/families.h"
#include "library/journal_rows.h"
#include "library/library_file.h"
#include "people/last_go.h"

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
        faults.push_back("entry " + fault.seal + ": " + fault.what);
    Statement head(database,
                   "SELECT h.sayings, h.seal, s.id FROM journal_head h LEFT JOIN saying s ON s.seal = h.seal");
    if (!head.step())
        faults.emplace_back("the journal has no head");
    else {
        if (head.number(0) != static_cast<std::int64_t>(links.size()))
            faults.push_back("the journal has " + std::to_string(links.size()) + " entries, and should have " +
                             std::to_string(head.number(0)));
        if (!head.is_null(1) && head.is_null(2)) faults.emplace_back("the last entry of the journal is missing");
    }
    if (const std::int64_t wrong = misplaced_sayings(database); wrong > 0)
        faults.push_back("where " + std::to_string(wrong) + (wrong == 1 ? " entry" : " entries") +
                         " of the journal came from has changed by itself");
    Statement kinds(database, "SELECT id, kind, words FROM saying WHERE words IS NOT NULL ORDER BY id");
    while (kinds.step()) {
        try {
            if (people::kind_of(people::read_saying(kinds.text(2)).words) != kinds.text(1))
                faults.push_back("entry " + std::to_string(kinds.number(0)) + ": its kind has changed by itself");
        } catch (const people::SayingFault&) {  // told above
        }
    }
    return faults;
}

void require_no_fault(const Database& database) {
    if (const std::vector<std::string> faults = faults_in(database); !faults.empty())
        throw base::Failure("read", database.file(),
                            "what people said is damaged: " + faults.front() + "; gamut library check tells more");
}

// Said elsewhere of a tune that is not here.
std::int64_t sayings_waiting(const Database& database) {
    TunesHere here(database);
    const std::vector<people::Entry> entries = entries_of(database);
    return std::count_if(entries.begin(), entries.end(), [&](const people::Entry& entry) {
        const people::NamedTune* tune = people::tune_of(entry.saying.words);
        return entry.is_from_elsewhere && tune != nullptr && here(*tune).value == 0;
    });
}

std::string earlier_export(const std::filesystem::path& file) {
    if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(file)))
        throw base::Failure("write", file.string(), "it is there already and is no ordinary file");
    return base::read_bytes(file.string());
}

std::vector<people::Link> read_export(const std::string& text, const std::filesystem::path& file) {
    try {
        return people::read_journal(text);
    } catch (const people::SayingFault& fault) {
        throw base::Failure("write", file.string(),
                            std::string("it is there already and is no earlier export: ") + fault.what());
    }
}

// So that nothing is lost when one takes the place of the other.
void require_all_in(std::span<const people::Link> earlier, std::span<const people::Link> now,
                    const std::filesystem::path& file) {
    std::set<people::Seal> seals;
    for (const people::Link& link : now) seals.insert(link.seal);
    const auto missing = std::count_if(earlier.begin(), earlier.end(),
                                       [&](const people::Link& link) { return !seals.contains(link.seal); });
    if (missing > 0)
        throw base::Failure("write", file.string(),
                            "something is said in it that this library does not have (" + std::to_string(missing) +
                                "); gamut library import brings it in");
}

void write_whole(const std::filesystem::path& file, const std::string& text) {
    std::ofstream stream(file, std::ios::binary);
    stream << text;
    if (!stream.flush()) throw base::Failure("write", file.string(), "the disk did not take all of it");
}

}  // namespace

std::vector<people::Link> journal_of(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");
    require_no_fault(*database);
    return links_of(*database);
}

std::vector<people::Entry> all_said(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");
    return entries_of(*database);
}

std::vector<people::Entry> take_back_last(const std::filesystem::path& file, std::optional<base::Date> day) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    const std::vector<people::Entry> entries = entries_of(*database);
    std::vector<people::Entry> last;
    people::TakenBack back;
    const std::vector<const people::Entry*> go = people::last_go(entries);
    // A new name for a player, in all terms at once, moves no lesson.
    const bool is_of_name = std::any_of(go.begin(), go.end(), [](const people::Entry* entry) {
        return std::holds_alternative<people::PlayerChanged>(entry->saying.words);
    });
    for (const people::Entry* entry : go) {
        if (const auto* term = std::get_if<people::TermSaid>(&entry->saying.words); term != nullptr && !is_of_name)
            throw base::Failure("take back", "what was said last",
                                "it is the term \"" + term->name + "\"; gamut syllabus takes that back by its name");
        last.push_back(*entry);
        back.sayings.push_back(entry->seal);
    }
    if (last.empty()) return last;
    Journal(*database, day).say(std::move(back));
    make_all_anew(*database);
    transaction.commit();
    return last;
}

std::int64_t export_journal(const std::filesystem::path& file, const std::filesystem::path& to) {
    const std::vector<people::Link> links = journal_of(file);
    const std::string text = people::write_journal(links);
    const auto number = static_cast<std::int64_t>(links.size());
    UnfinishedFile made(to);
    if (std::filesystem::exists(std::filesystem::symlink_status(to))) {
        const std::string there = earlier_export(to);
        if (there == text) return number;
        require_all_in(read_export(there, to), links, to);
        write_whole(made.path(), text);
        made.take_place();
        return number;
    }
    write_whole(made.path(), text);
    if (!made.take_name()) throw base::Failure("write", to.string(), "it is there already; only a new file is written");
    return number;
}

TakenIn take_in_journal(const std::filesystem::path& file, std::span<const people::Link> links) {
    const auto database = open_existing_library(file, Access::write);
    database->exec("PRAGMA secure_delete = ON");  // what was erased elsewhere
    Transaction transaction(*database);
    const std::vector<people::Link> ours = links_of(*database);
    require_no_fault(*database);
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
    if (taken == TakenIn{}) {
        taken.waiting = sayings_waiting(*database);
        return taken;
    }
    Statement(*database, "UPDATE journal_head SET sayings = ?1, clock = ?2 WHERE id = 1")
        .bind(static_cast<std::int64_t>(all.size()), clock)
        .run();
    make_all_anew(*database);
    taken.waiting = sayings_waiting(*database);
    transaction.commit();
    if (taken.erased > 0) clear_erased(*database);
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

std::int64_t rebuild_kept(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::write);
    Transaction transaction(*database);
    require_no_fault(*database);
    make_all_anew(*database);
    const std::int64_t sayings = database->number("SELECT count(*) FROM saying");
    transaction.commit();
    return sayings;
}

JournalFaults faults_of_journal(const std::filesystem::path& file) {
    const auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");
    JournalFaults faults{faults_in(*database), {}};
    for (const people::Subject subject : kSubjects) {
        const std::string of(subject_token(subject));
        try {
            require_sound(*database, subject);
        } catch (const base::Failure&) {
            faults.kept.push_back("what is kept of " + of + " has changed by itself");
        }
    }
    return faults;
}

}  // namespace library
