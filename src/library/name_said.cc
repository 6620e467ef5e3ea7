// Tested by name_said_test.cc.
#include "library/name_said.h"

#include <algorithm>
#include <map>

#include "library/existing_library.h"
#include "library/journal_rows.h"
#include "people/name_said.h"

namespace library {

namespace {

using people::Entry;
using people::Subject;
using Without = std::function<std::string(const std::string& text)>;

struct NameFound {
    std::vector<const Entry*> named;  // to be erased
    std::vector<const Entry*> asked;  // of terms that go on
};

NameFound find_name(std::span<const Entry> entries, const tune::PlayerName& name, const Without& without) {
    NameFound found{people::entries_saying(entries, name), {}};
    for (const Entry& entry : entries)
        if (const auto* term = std::get_if<people::TermSaid>(&entry.saying.words);
            term != nullptr && !people::says_name(term->folded, name) && without(term->text) != term->text)
            found.asked.push_back(&entry);
    return found;
}

std::vector<Entry> in_order(const NameFound& found) {
    std::vector<const Entry*> all = found.named;
    all.insert(all.end(), found.asked.begin(), found.asked.end());
    std::sort(all.begin(), all.end(), [](const Entry* one, const Entry* other) { return one->rank < other->rank; });
    std::vector<Entry> entries;
    for (const Entry* entry : all) entries.push_back(*entry);
    return entries;
}

// What is still unwanted, with a reason that says the name: by the seal of its player, without the reason.
std::vector<people::ExclusionSaid> reasonless(const Database& database, Journal& journal,
                                              const tune::PlayerName& name) {
    std::vector<people::ExclusionSaid> sayings;
    const people::Kept kept = fold_journal(database, Subject::players);
    std::map<people::PlayerNumber, people::Seal> seals;
    for (const auto& [seal, player] : kept.player_seals) seals.emplace(player, seal);
    for (const auto& [of, reason] : kept.exclusions)
        if (people::says_name(reason, name))
            sayings.push_back({seals[of.first], journal.named(of.second), {}, std::string()});
    return sayings;
}

}  // namespace

std::vector<Entry> entries_saying(const std::filesystem::path& file, const tune::PlayerName& name,
                                  const Without& without) {
    const auto database = open_existing_library(file, Access::read);
    database->exec("BEGIN");
    const std::vector<Entry> entries = entries_of(*database);
    return in_order(find_name(entries, name, without));
}

std::vector<Entry> erase_saying(const std::filesystem::path& file, const tune::PlayerName& name, const Without& without,
                                std::optional<base::Date> day) {
    const auto database = open_existing_library(file, Access::write);
    database->exec("PRAGMA secure_delete = ON");
    Transaction transaction(*database);
    const std::vector<Entry> entries = entries_of(*database);
    const NameFound found = find_name(entries, name, without);
    std::vector<Entry> erased = in_order(found);
    if (erased.empty()) return erased;
    Journal journal(*database, day);
    const std::vector<people::ExclusionSaid> unwanted = reasonless(*database, journal, name);
    std::vector<people::Seal> seals;
    for (const Entry* entry : found.named) seals.push_back(entry->seal);
    if (!seals.empty()) journal.erase(seals);
    for (const people::ExclusionSaid& said : unwanted) journal.say(said);
    for (const Subject subject : {Subject::marks, Subject::players, Subject::terms}) rebuild(*database, subject);
    if (!found.asked.empty()) forget_in_terms(*database, journal, without);
    transaction.commit();
    clear_erased(*database);
    return erased;
}

}  // namespace library
