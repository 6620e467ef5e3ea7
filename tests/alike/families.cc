#include "alike/families.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <map>
#include <random>
#include <set>
#include <string>
#include <utility>

#include "alike/varied.h"
#include "analysis/kin_search.h"
#include "analysis/kinship.h"
#include "analysis/outline_of.h"
#include "tune/title.h"

namespace alike {

namespace {

using Pair = std::pair<std::uint32_t, std::uint32_t>;

// Without a kind behind dashes, as the third book writes it, and without an article.
std::string bare_title(const std::string& title) {
    const std::size_t dashes = title.find("--");
    std::string folded = tune::fold_title(dashes != std::string::npos && dashes > 3 ? title.substr(0, dashes) : title);
    for (const std::string_view article : {"the ", "a "})
        if (folded.starts_with(article)) folded.erase(0, article.size());
    for (const std::string_view article : {", the", ", a", " the"})
        if (folded.ends_with(article)) folded.erase(folded.size() - article.size());
    while (folded.ends_with(' ')) folded.pop_back();
    return folded;
}

// In one of the books a number that stands in two files is one tune.
std::set<Pair> named_pairs(const std::vector<support::BookTune>& tunes) {
    std::map<std::string, std::set<std::uint32_t>> named;
    for (std::uint32_t at = 0; at < tunes.size(); ++at) {
        for (const std::string& title : tunes[at].setting.titles)
            if (const std::string bare = bare_title(title); !bare.empty() && bare != "name")
                named["T" + bare].insert(at);
        if (tunes[at].collection == support::kOneills) named["X" + tunes[at].setting.number.value_or("")].insert(at);
    }
    std::set<Pair> pairs;
    for (const auto& [name, members] : named)
        for (const std::uint32_t one : members)
            for (const std::uint32_t other : members)
                if (one < other && !(name[0] == 'X' && tunes[one].file == tunes[other].file)) pairs.emplace(one, other);
    return pairs;
}

struct Found {
    std::size_t all = 0, possible = 0, probable = 0;

    void add(double likeness) {
        ++all;
        possible += likeness >= analysis::kPossibleKin ? 1 : 0;
        probable += likeness >= analysis::kProbableKin ? 1 : 0;
    }
    double probable_share() const { return all == 0 ? 1 : static_cast<double>(probable) / static_cast<double>(all); }
    double possible_share() const { return all == 0 ? 1 : static_cast<double>(possible) / static_cast<double>(all); }
};

void print(const std::string& what, const Found& found) {
    std::printf("%-44s %5zu %6zu (%3.0f %%) %6zu (%3.0f %%)\n", what.c_str(), found.all, found.probable,
                100 * found.probable_share(), found.possible, 100 * found.possible_share());
}

class Measured {
public:
    Measured(const std::vector<support::BookTune>& tunes, bool with_titles)
        : tunes_(tunes), with_titles_(with_titles), named_(named_pairs(tunes)) {
        for (const support::BookTune& tune : tunes) outlines_.push_back(analysis::outline_of(tune.setting.melody));
        are_kept_ = std::all_of(outlines_.begin(), outlines_.end(), [](const tune::Outline& outline) {
            return tune::decode_outline(tune::encode_outline(outline)) == outline;
        });
        if (!are_kept_) std::printf("an outline is not stored and read back as it was\n");
    }

    bool pairs() {
        analysis::KinSearch search;
        const auto start = std::chrono::steady_clock::now();
        for (const tune::Outline& outline : outlines_) search.add(outline);
        const std::vector<analysis::KinPair> found = search.find_pairs();
        const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - start;
        // Settings of one class stand for each other.
        std::map<std::uint32_t, std::uint32_t> stands_for;
        std::map<Pair, double> likeness;
        for (const analysis::KinPair& pair : found)
            if (pair.is_exact)
                stands_for[pair.second] = pair.first;
            else
                likeness[{pair.first, pair.second}] = pair.likeness;
        const auto likeness_of = [&](Pair pair) {
            for (std::uint32_t* side : {&pair.first, &pair.second})
                if (stands_for.contains(*side)) *side = stands_for.at(*side);
            if (pair.first == pair.second) return 1.0;
            const auto at = likeness.find(std::minmax(pair.first, pair.second));
            return at == likeness.end() ? 0.0 : at->second;
        };
        std::array<Found, 2> across, within, others;
        for (const Pair& pair : named_)
            (are_of_one_book(pair) ? within : across)[is_held_out(pair) ? 1 : 0].add(likeness_of(pair));
        for (const auto& [pair, value] : likeness)
            if (!named_.contains(pair)) {
                others[is_held_out(pair) ? 1 : 0].add(value);
                if (with_titles_ && value >= analysis::kProbableKin)
                    std::printf("  %.3f %s %s | %s %s\n", value, tunes_[pair.first].file.c_str(),
                                title(pair.first).c_str(), tunes_[pair.second].file.c_str(),
                                title(pair.second).c_str());
            }
        std::printf("%-44s %5s %14s %14s\n", "pairs found by the search", "all", "probably", "perhaps or so");
        print("one title in two books", across[0]);
        print("  the same, held out", across[1]);
        print("one title or number in one book", within[0]);
        print("  the same, held out", within[1]);
        std::printf("%-44s %5s %6zu         %6zu\n", "pairs of other titles", "", others[0].probable,
                    others[0].possible);
        std::printf("%-44s %5s %6zu         %6zu\n", "  the same, held out", "", others[1].probable,
                    others[1].possible);
        std::printf("%zu settings in %.2f s\n\n", tunes_.size(), seconds.count());
        return are_kept_ && across[0].possible_share() >= kAcross && across[1].possible_share() >= kAcrossHeldOut &&
               within[0].possible_share() >= kWithin;
    }

    bool variations(std::size_t one_in) {
        std::mt19937 random(11);
        std::array<std::array<Found, 2>, kVariations.size()> found;
        std::array<Found, 2> strangers;
        for (std::size_t at = 0; at < outlines_.size(); at += one_in) {
            if (outlines_[at].notes.size() < kFewestNotes) continue;
            const auto own = analysis::contour_of(outlines_[at]);
            const std::size_t held_out = tunes_[at].held_out ? 1 : 0;
            for (std::size_t kind = 0; kind < kVariations.size(); ++kind) {
                const auto other = analysis::contour_of(varied(outlines_[at], kVariations[kind], random));
                found[kind][held_out].add(analysis::compare(own, other));
                const auto stranger =
                    static_cast<std::uint32_t>((at + 1 + random() % (outlines_.size() - 1)) % outlines_.size());
                const auto low = std::min(static_cast<std::uint32_t>(at), stranger);
                const auto high = std::max(static_cast<std::uint32_t>(at), stranger);
                if (low != high && !named_.contains({low, high}))
                    strangers[held_out].add(analysis::compare(other, analysis::contour_of(outlines_[stranger])));
            }
        }
        std::printf("%-44s %5s %14s %14s\n", "a tune beside its own variation", "all", "probably", "perhaps or so");
        bool is_good = true;
        for (std::size_t kind = 0; kind < kVariations.size(); ++kind) {
            print(std::string(name_of(kVariations[kind])), found[kind][0]);
            print("  the same, held out", found[kind][1]);
            is_good = is_good && found[kind][0].possible_share() >= kVariation &&
                      found[kind][1].possible_share() >= kVariationHeldOut;
        }
        print("a variation beside any other tune", strangers[0]);
        print("  the same, held out", strangers[1]);
        std::printf("\n");
        return is_good && strangers[0].possible_share() < kStrangers;
    }

private:
    // Floors for what is found as perhaps one tune or more: the figures of README.md less about three in a hundred.
    static constexpr double kAcross = 0.58, kAcrossHeldOut = 0.58, kWithin = 0.59, kVariation = 0.70,
                            kVariationHeldOut = 0.55, kStrangers = 0.01;
    static constexpr std::size_t kFewestNotes = 40;

    bool are_of_one_book(const Pair& pair) const {
        return tunes_[pair.first].collection == tunes_[pair.second].collection;
    }
    bool is_held_out(const Pair& pair) const { return tunes_[pair.first].held_out || tunes_[pair.second].held_out; }
    std::string title(std::uint32_t at) const {
        return tunes_[at].setting.titles.empty() ? "" : tunes_[at].setting.titles.front();
    }

    const std::vector<support::BookTune>& tunes_;
    bool with_titles_;
    bool are_kept_ = false;
    std::set<Pair> named_;
    std::vector<tune::Outline> outlines_;
};

}  // namespace

bool measure_families(const std::vector<support::BookTune>& tunes, bool checks, bool with_titles) {
    Measured measured(tunes, with_titles);
    const bool pairs_are_good = measured.pairs();
    return measured.variations(checks ? 20 : 5) && pairs_are_good;
}

}  // namespace alike
