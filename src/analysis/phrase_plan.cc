// Phrases of exactly the same bars are found by sorting; only the others are laid side by side, with the first few that
// are known. Tested by phrase_plan_test.cc.
#include "analysis/phrase_plan.h"

#include <xxhash.h>

#include <algorithm>
#include <numeric>
#include <optional>

namespace analysis {

namespace {

using music::Duration;
using music::Sound;
using Bars = std::span<const PlayedBar>;

// Two phrases are near when this much of their time sounds alike. Source: house choice; of two bars, one.
constexpr double kNearShare = 0.5;

// Source: house choice; a tune for dancing has some ten, and every phrase is laid beside each of these.
constexpr std::size_t kMaxKnown = 26;

double whole_notes(const Duration& duration) {
    return static_cast<double>(duration.numerator()) / static_cast<double>(duration.denominator());
}

bool same_pitches(const music::Melody& melody, const Sound& a, const Sound& b) {
    if (a.kind != b.kind || a.head_count != b.head_count) return false;
    for (std::uint32_t head = 0; head < a.head_count; ++head)
        if (melody.heads[a.first_head + head].midi != melody.heads[b.first_head + head].midi) return false;
    return true;
}

// The timed sounds of one bar in turn.
class BarWalk {
public:
    BarWalk(const music::Melody& melody, std::uint32_t bar)
        : melody_(&melody),
          at_(melody.bars[bar].first_sound),
          end_(bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound
                                            : static_cast<std::uint32_t>(melody.sounds.size())) {
        skip_graces();
    }
    bool ended() const { return at_ == end_; }
    std::size_t left() const { return end_ - at_; }
    const Sound& operator*() const { return melody_->sounds[at_]; }
    void next() {
        ++at_;
        skip_graces();
    }

private:
    void skip_graces() {
        while (at_ != end_ && melody_->sounds[at_].kind == Sound::Kind::grace) ++at_;
    }

    const music::Melody* melody_;
    std::uint32_t at_;
    std::uint32_t end_;
};

struct Likeness {
    double alike = 0;  // whole notes that sound alike
    double whole = 0;  // of the longer side
    bool is_same = true;

    bool is_near() const { return alike > 0 && alike >= kNearShare * whole - 1e-9; }
};

// Adds one bar laid beside another. A bar of far more notes than the other is not like it; one of a million notes would
// else be walked for each of the others.
void compare_notes(const music::Melody& melody, std::uint32_t bar, std::uint32_t other, Likeness& likeness) {
    BarWalk a(melody, bar), b(melody, other);
    if (std::max(a.left(), b.left()) > 4 * std::min(a.left(), b.left()) + 16) return;
    while (!a.ended() && !b.ended()) {
        if (!(*a).at || !(*b).at) return;
        if ((*a).at == (*b).at) {
            if (same_pitches(melody, *a, *b)) likeness.alike += whole_notes(std::min((*a).length, (*b).length));
            a.next();
            b.next();
        } else {
            (*(*a).at < *(*b).at ? a : b).next();
        }
    }
}

// With `only_same` set, it stops where the two turn out not to be the same.
Likeness compare(const music::Melody& melody, Bars a, Bars b, std::span<const std::uint64_t> shapes, bool only_same) {
    Likeness likeness;
    if (a.size() != b.size()) {
        likeness.is_same = false;
        return likeness;
    }
    for (std::size_t index = 0; index < a.size(); ++index) {
        const std::uint32_t bar = a[index].bar, other = b[index].bar;
        const auto& length = melody.bars[bar].length;
        const auto& other_length = melody.bars[other].length;
        const double longer =
            std::max(length ? whole_notes(*length) : 0, other_length ? whole_notes(*other_length) : 0);
        likeness.whole += longer;
        if (shapes[bar] == shapes[other])
            likeness.alike += longer;
        else {
            const bool may_be_cut = index + 1 == a.size() && length != other_length;
            likeness.is_same = likeness.is_same && may_be_cut && begins_alike(melody, bar, other);
            if (!likeness.is_same && only_same) return likeness;
            compare_notes(melody, bar, other, likeness);
        }
    }
    return likeness;
}

std::vector<Bars> cut(Bars part, int bars) {
    std::vector<Bars> phrases;
    std::size_t begin = 0;
    std::uint64_t count = 0;
    for (std::size_t index = 0; index < part.size(); ++index) {
        count += part[index].count;
        const bool is_full = count >= static_cast<std::uint64_t>(bars);
        const bool goes_on = index + 1 < part.size() && part[index + 1].count == 0;
        if (!is_full || goes_on) continue;
        phrases.push_back(part.subspan(begin, index + 1 - begin));
        begin = index + 1;
        count = 0;
    }
    if (begin == part.size()) return phrases;
    const bool is_single = count <= 1 && bars > 1 && !phrases.empty();
    if (is_single)
        phrases.back() = {phrases.back().data(), phrases.back().size() + (part.size() - begin)};
    else
        phrases.push_back(part.subspan(begin));
    return phrases;
}

// The phrases met so far, and which letter and how many primes each has.
class Letters {
public:
    Letters(const music::Melody& melody, std::span<const std::uint64_t> shapes) : melody_(&melody), shapes_(shapes) {}

    // Of a phrase that no earlier one equals bar by bar.
    std::string name(Bars phrase) {
        std::optional<std::size_t> nearest;
        double nearest_share = 0;
        for (std::size_t index = 0; index < known_.size(); ++index) {
            const bool is_variant = known_[index].variant > 0;
            const Likeness likeness = compare(*melody_, known_[index].bars, phrase, shapes_, is_variant);
            if (likeness.is_same && likeness.whole > 0) return text(known_[index]);
            if (is_variant || !likeness.is_near()) continue;
            const double share = likeness.alike / likeness.whole;
            if (nearest && share <= nearest_share + 1e-9) continue;
            nearest = known_[index].letter;
            nearest_share = share;
        }
        Known named{phrase, 0, 0};
        if (nearest) {
            named.letter = *nearest;
            named.variant = ++variants_[*nearest];
        } else {
            named.letter = variants_.size();
            variants_.push_back(0);
        }
        if (known_.size() < kMaxKnown) known_.push_back(named);
        return text(named);
    }

private:
    struct Known {
        Bars bars;
        std::size_t letter;
        std::size_t variant;  // 0 for the first of its letter
    };

    static std::string text(const Known& known) {
        std::string name = letter_name(known.letter, 'a');
        return known.variant <= 3 ? name.append(known.variant, '\'') : name + std::to_string(known.variant);
    }

    const music::Melody* melody_;
    std::span<const std::uint64_t> shapes_;
    std::vector<Known> known_;
    std::vector<std::size_t> variants_;  // of each letter
};

}  // namespace

int phrase_bars(int part_bars) {
    if (part_bars <= 5) return 1;
    return part_bars < 16 ? 2 : 4;
}

std::vector<std::uint32_t> first_equals(std::span<const std::uint64_t> values) {
    std::vector<std::uint32_t> order(values.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(),
              [&](std::uint32_t a, std::uint32_t b) { return values[a] != values[b] ? values[a] < values[b] : a < b; });
    std::vector<std::uint32_t> first(values.size());
    for (std::size_t place = 0; place < order.size(); ++place) {
        const bool is_again = place > 0 && values[order[place]] == values[order[place - 1]];
        first[order[place]] = is_again ? first[order[place - 1]] : order[place];
    }
    return first;
}

std::vector<tune::Phrase> plan_phrases(const music::Melody& melody, std::span<const std::vector<PlayedBar>> parts,
                                       int bars, std::span<const std::uint64_t> shapes, std::span<const int> numbers) {
    std::vector<Bars> all;
    for (const std::vector<PlayedBar>& part : parts) {
        const std::vector<Bars> phrases = cut(part, bars);
        all.insert(all.end(), phrases.begin(), phrases.end());
    }
    std::vector<std::uint64_t> hashes;
    hashes.reserve(all.size());
    std::vector<std::uint64_t> shape;
    for (const Bars& phrase : all) {
        shape.clear();
        for (const PlayedBar& played : phrase) shape.push_back(shapes[played.bar]);
        hashes.push_back(XXH3_64bits(shape.data(), shape.size() * sizeof(std::uint64_t)));
    }
    const std::vector<std::uint32_t> first = first_equals(hashes);
    Letters letters(melody, shapes);
    std::vector<tune::Phrase> plan(all.size());
    for (std::size_t index = 0; index < all.size(); ++index) {
        plan[index].label = first[index] < index ? plan[first[index]].label : letters.name(all[index]);
        const PlayedBar& last = all[index].back();
        plan[index].first_bar = numbers[all[index].front().bar];
        plan[index].last_bar = numbers[last.bar] + std::max(static_cast<int>(last.count), 1) - 1;
    }
    return plan;
}

bool begins_alike(const music::Melody& melody, std::uint32_t bar, std::uint32_t other) {
    const auto& length = melody.bars[bar].length;
    const auto& other_length = melody.bars[other].length;
    if (!length || !other_length) return false;
    if (*other_length < *length) return begins_alike(melody, other, bar);
    const auto twice = sum(*length, *length);
    if (!twice || *twice < *other_length) return false;
    BarWalk a(melody, bar), b(melody, other);
    for (; !a.ended(); a.next(), b.next()) {
        if (b.ended() || (*a).at != (*b).at || !same_pitches(melody, *a, *b)) return false;
        const Sound& cut = *a;
        if (cut.length == (*b).length) continue;
        const auto end = cut.at ? sum(*cut.at, cut.length) : std::nullopt;
        if (!end || *end != *length || (*b).length < cut.length) return false;
    }
    return true;
}

std::string letter_name(std::size_t index, char first) {
    std::string name;
    for (++index; index > 0; index = (index - 1) / 26)
        name += static_cast<char>(first + static_cast<char>((index - 1) % 26));
    std::reverse(name.begin(), name.end());
    return name;
}

}  // namespace analysis
