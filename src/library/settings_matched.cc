// Tested case by case by settings_matched_test.cc.
#include "library/settings_matched.h"

#include <deque>
#include <unordered_map>

namespace library {

namespace {

// Two settings with equal keys are the same by the rule; without a key the rule does not speak of a setting.
using Key = std::optional<std::string>;
using KeyOf = Key (*)(const Identity&);

Key number_key(const Identity& setting) { return setting.number ? Key("n" + *setting.number) : std::nullopt; }

Key title_key(const Identity& setting) {
    return setting.folded_title && !setting.folded_title->empty() ? Key("t" + *setting.folded_title) : std::nullopt;
}

Key melody_key(const Identity& setting) {
    return setting.has_notes ? Key("m" + std::to_string(setting.melody_hash)) : std::nullopt;
}

Key both(const Key& a, const Key& b) { return a && b ? Key(*a + '\n' + *b) : std::nullopt; }

struct Rule {
    KeyOf key_of;
    bool must_be_unique = false;
};

const Rule kRules[] = {
    {[](const Identity& s) { return both(melody_key(s), number_key(s)); }},
    {[](const Identity& s) { return both(melody_key(s), title_key(s)); }},
    {melody_key},
    {[](const Identity& s) { return both(number_key(s), title_key(s)); }},
    {title_key, true},
    {number_key},
    {title_key},
};

struct Alike {
    std::deque<std::size_t> stored;
    std::size_t incoming = 0;
};

}  // namespace

std::vector<std::optional<std::size_t>> match_settings(std::span<const Identity> stored,
                                                       std::span<const Identity> incoming) {
    std::vector<std::optional<std::size_t>> matches(incoming.size());
    if (stored.empty()) return matches;
    std::vector<bool> taken(stored.size(), false);
    std::size_t left = incoming.size();
    for (const Rule& rule : kRules) {
        if (left == 0) break;
        std::unordered_map<std::string, Alike> alike;
        for (const bool gone : {false, true})
            for (std::size_t i = 0; i < stored.size(); ++i)
                if (!taken[i] && stored[i].gone == gone)
                    if (const Key key = rule.key_of(stored[i])) alike[*key].stored.push_back(i);
        if (alike.empty()) continue;
        std::vector<Alike*> of(incoming.size(), nullptr);
        for (std::size_t i = 0; i < incoming.size(); ++i) {
            if (matches[i]) continue;
            const Key key = rule.key_of(incoming[i]);
            const auto found = key ? alike.find(*key) : alike.end();
            if (found == alike.end()) continue;
            of[i] = &found->second;
            ++found->second.incoming;
        }
        for (std::size_t i = 0; i < incoming.size(); ++i) {
            if (of[i] == nullptr || of[i]->stored.empty()) continue;
            if (rule.must_be_unique && (of[i]->stored.size() > 1 || of[i]->incoming > 1)) continue;
            matches[i] = of[i]->stored.front();
            of[i]->stored.pop_front();
            taken[*matches[i]] = true;
            --left;
        }
    }
    return matches;
}

}  // namespace library
