// Tested by twins_test.cc.
#include "answers/twins.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "analysis/kin_search.h"
#include "tune/outline.h"

namespace answers {

namespace {

struct Melodies {
    analysis::KinSearch search;
    std::vector<tune::TuneId> tunes, own;  // by place in `search`
};

// Of these tunes only, where any are named.
Melodies melodies_of(const collection::Collection& collection, const std::set<tune::TuneId>& only = {}) {
    Melodies melodies;
    collection.visit_outlines([&](const collection::StoredOutline& stored) {
        if (!only.empty() && !only.contains(stored.tune)) return;
        const auto outline = tune::decode_outline(stored.bytes);
        if (!outline) return;
        melodies.search.add(*outline);
        melodies.tunes.push_back(stored.tune);
        melodies.own.push_back(stored.own);
    });
    return melodies;
}

using Pair = std::pair<tune::TuneId, tune::TuneId>;

Pair ordered(tune::TuneId a, tune::TuneId b) { return {std::min(a, b), std::max(a, b)}; }

// The likest of each two tunes, but for those of which a person has said something.
std::vector<Twin> unspoken(const collection::Collection& collection, const Melodies& melodies,
                           const std::vector<std::pair<Pair, Twin>>& found) {
    std::map<tune::TuneId, tune::TuneId> tune_of;
    for (std::size_t at = 0; at < melodies.own.size(); ++at) tune_of[melodies.own[at]] = melodies.tunes[at];
    std::set<Pair> spoken;
    for (const collection::Verdict& verdict : collection.verdicts())
        spoken.insert(ordered(tune_of[verdict.one], tune_of[verdict.other]));
    std::map<Pair, Twin> best;
    for (const auto& [tunes, twin] : found) {
        const auto [at, is_new] = best.emplace(tunes, twin);
        if (!is_new && twin.likeness > at->second.likeness) at->second = twin;
    }
    std::vector<Twin> twins;
    for (const auto& [tunes, twin] : best) {
        if (!spoken.contains(tunes)) twins.push_back(twin);
    }
    std::stable_sort(twins.begin(), twins.end(), [](const Twin& a, const Twin& b) { return a.likeness > b.likeness; });
    return twins;
}

std::vector<Twin> twins_among(const collection::Collection& collection, const Melodies& melodies, double least) {
    std::vector<std::pair<Pair, Twin>> found;
    for (const analysis::KinPair& pair : melodies.search.find_pairs(least)) {
        const tune::TuneId one = melodies.tunes[pair.first];
        const tune::TuneId other = melodies.tunes[pair.second];
        if (one == other) continue;
        const Pair own = ordered(melodies.own[pair.first], melodies.own[pair.second]);
        found.push_back({ordered(one, other), {own.first, own.second, pair.likeness}});
    }
    return unspoken(collection, melodies, found);
}

}  // namespace

std::vector<Twin> probable_twins(const collection::Collection& collection, double least) {
    return twins_among(collection, melodies_of(collection), least);
}

std::set<tune::TuneId> probable_doubles(const collection::Collection& collection,
                                        const std::vector<tune::TuneId>& tunes) {
    const Melodies melodies = melodies_of(collection, {tunes.begin(), tunes.end()});
    std::map<tune::TuneId, tune::TuneId> tune_of;
    for (std::size_t at = 0; at < melodies.own.size(); ++at) tune_of[melodies.own[at]] = melodies.tunes[at];
    std::map<tune::TuneId, std::vector<tune::TuneId>> twins_of;
    for (const Twin& twin : twins_among(collection, melodies, analysis::kProbableKin)) {
        twins_of[tune_of[twin.one]].push_back(tune_of[twin.other]);
        twins_of[tune_of[twin.other]].push_back(tune_of[twin.one]);
    }
    std::set<tune::TuneId> kept, doubles;
    for (const tune::TuneId tune : tunes) {
        const std::vector<tune::TuneId>& twins = twins_of[tune];
        const bool is_double =
            std::any_of(twins.begin(), twins.end(), [&](tune::TuneId twin) { return kept.contains(twin); });
        (is_double ? doubles : kept).insert(tune);
    }
    return doubles;
}

std::vector<Twin> probable_twins_of(const collection::Collection& collection, const tune::TuneRecord& record,
                                    double least) {
    const Melodies melodies = melodies_of(collection);
    const auto at = std::find(melodies.own.begin(), melodies.own.end(), record.own);
    if (at == melodies.own.end()) return {};
    const auto outline = collection.outline_of(record.setting);
    if (!outline) return {};
    std::vector<std::pair<Pair, Twin>> found;
    for (const analysis::Kin& kin : melodies.search.find_kin_of(*outline, least)) {
        const tune::TuneId other = melodies.tunes[kin.setting];
        if (other != record.id)
            found.push_back({ordered(record.id, other), {record.own, melodies.own[kin.setting], kin.likeness}});
    }
    return unspoken(collection, melodies, found);
}

}  // namespace answers
