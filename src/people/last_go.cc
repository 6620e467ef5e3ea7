// Tested by last_go_test.cc.
#include "people/last_go.h"

#include <algorithm>

namespace people {

namespace {

bool can_be_taken_back(const Words& words) {
    return !std::holds_alternative<TakenBack>(words) && !std::holds_alternative<Erased>(words) &&
           !std::holds_alternative<PlayerGone>(words);
}

}  // namespace

std::unordered_set<Seal> undone_in(std::span<const Entry> entries) {
    std::unordered_set<Seal> undone;
    // Whoever takes something back comes after it.
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry)
        if (const auto* words = std::get_if<TakenBack>(&entry->saying.words);
            words != nullptr && !undone.contains(entry->seal))
            undone.insert(words->sayings.begin(), words->sayings.end());
    return undone;
}

std::vector<const Entry*> last_go(std::span<const Entry> entries, const IsMeant& is_meant) {
    const std::unordered_set<Seal> undone = undone_in(entries);
    std::vector<const Entry*> last;
    Seal go;
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        const Words& words = entry->saying.words;
        if (undone.contains(entry->seal) || !can_be_taken_back(words) || (is_meant && !is_meant(words))) continue;
        const Seal& of = entry->saying.with ? *entry->saying.with : entry->seal;
        if (go.empty()) go = of;
        if (of == go) last.push_back(&*entry);
    }
    std::reverse(last.begin(), last.end());
    return last;
}

}  // namespace people
