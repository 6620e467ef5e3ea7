// Tested by families_test.cc.
#include "collection/families.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace collection {

namespace {

// Disjoint sets that keep some members apart.
class Families {
public:
    explicit Families(std::size_t tunes) : parent_(tunes), apart_(tunes) {
        std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    }

    std::size_t root(std::size_t tune) {
        while (parent_[tune] != tune) tune = parent_[tune] = parent_[parent_[tune]];
        return tune;
    }

    void keep_apart(std::size_t a, std::size_t b) {
        apart_[a].push_back(b);
        apart_[b].push_back(a);
    }

    // False where that would bring together what is to be kept apart.
    bool join(std::size_t a, std::size_t b) {
        a = root(a);
        b = root(b);
        if (a == b) return true;
        if (apart_[a].size() > apart_[b].size()) std::swap(a, b);
        for (const std::size_t other : apart_[a])
            if (root(other) == b) return false;
        if (b > a) {  // the least is the head
            parent_[b] = a;
            apart_[a].insert(apart_[a].end(), apart_[b].begin(), apart_[b].end());
        } else {
            parent_[a] = b;
            apart_[b].insert(apart_[b].end(), apart_[a].begin(), apart_[a].end());
        }
        return true;
    }

private:
    std::vector<std::size_t> parent_;
    std::vector<std::vector<std::size_t>> apart_;  // of a root: whom some of its members are not to meet
};

std::optional<std::size_t> place_of(std::span<const LoneTune> tunes, std::int64_t id) {
    const auto at = std::lower_bound(tunes.begin(), tunes.end(), id,
                                     [](const LoneTune& tune, std::int64_t wanted) { return tune.id < wanted; });
    if (at == tunes.end() || at->id != id) return std::nullopt;
    return static_cast<std::size_t>(at - tunes.begin());
}

}  // namespace

std::vector<std::int64_t> heads_of(std::span<const LoneTune> tunes, std::span<const Verdict> said) {
    Families families(tunes.size());
    for (const bool is_same : {false, true})
        for (const Verdict& words : said) {
            if (words.is_same != is_same) continue;
            const auto one = place_of(tunes, words.one.value);
            const auto other = place_of(tunes, words.other.value);
            if (!one || !other) continue;
            if (is_same)
                families.join(*one, *other);
            else
                families.keep_apart(*one, *other);
        }
    std::vector<std::size_t> by_class;
    for (std::size_t tune = 0; tune < tunes.size(); ++tune)
        if (tunes[tune].melody_class) by_class.push_back(tune);
    std::stable_sort(by_class.begin(), by_class.end(),
                     [&](std::size_t a, std::size_t b) { return *tunes[a].melody_class < *tunes[b].melody_class; });
    // Of one class: each joins the first it may join. Only where somebody said no are there several to try.
    std::vector<std::size_t> roots;
    for (std::size_t at = 0; at < by_class.size(); ++at) {
        const std::size_t tune = by_class[at];
        if (at == 0 || *tunes[tune].melody_class != *tunes[by_class[at - 1]].melody_class) roots.clear();
        if (std::none_of(roots.begin(), roots.end(), [&](std::size_t root) { return families.join(root, tune); }))
            roots.push_back(tune);
    }
    std::vector<std::int64_t> heads(tunes.size());
    for (std::size_t tune = 0; tune < tunes.size(); ++tune) heads[tune] = tunes[families.root(tune)].id;
    return heads;
}

}  // namespace collection
