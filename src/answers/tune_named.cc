// Tested by tune_named_test.cc.
#include "answers/tune_named.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <optional>
#include <vector>

#include "tune/title.h"
#include "tune/title_match.h"

namespace answers {

namespace {

std::optional<tune::TuneId> id_written(const std::string& which) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error != std::errc() || end != which.data() + which.size()) return std::nullopt;
    return tune::TuneId{id};
}

// The tune of which a person said that this means it.
std::optional<tune::TuneId> meant_by(const collection::Collection& collection, const std::string& which) {
    const std::string folded = tune::fold_title(which);
    for (const collection::Alias& alias : collection.aliases())
        if (alias.folded == folded) return alias.tune;
    return std::nullopt;
}

// `The Mackerel Auction (33)`.
std::vector<std::string> titles_near(const collection::Collection& collection, const std::string& which) {
    std::vector<tune::TitleCandidate> candidates = tune::TitleIndex(collection.titled_tunes()).match(which).candidates;
    if (candidates.size() > tune::kMostSuggestions) candidates.resize(tune::kMostSuggestions);
    std::vector<std::string> near;
    for (const tune::TitleCandidate& candidate : candidates)
        near.push_back(candidate.title + " (" + std::to_string(candidate.id.value) + ")");
    return near;
}

}  // namespace

tune::TuneRecord tune_named(const collection::Collection& collection, const std::string& which, Part part) {
    if (const auto id = id_written(which))
        if (auto record = collection.tune_by_id(*id)) return std::move(*record);
    if (const auto meant = meant_by(collection, which))
        if (auto record = collection.tune_by_id(*meant)) return std::move(*record);
    std::vector<tune::TuneRecord> found = collection.tunes_titled(which);
    if (found.empty()) throw Refused({part, Reason::unknown_tune, which, titles_near(collection, which)});
    if (found.size() > 1) throw Refused({part, Reason::several_tunes, which, {}, std::move(found)});
    return std::move(found.front());
}

tune::TuneRecord setting_named(const collection::Collection& collection, const std::string& which, bool any_of_a_tune) {
    if (const auto id = id_written(which))
        if (auto record = collection.setting_of_own(*id)) return std::move(*record);
    const auto meant = meant_by(collection, which);
    std::vector<tune::TuneRecord> found = meant ? collection.settings_of(*meant) : collection.settings_titled(which);
    if (found.empty()) throw Refused({Part::tune, Reason::unknown_tune, which, titles_near(collection, which)});
    const bool are_one = std::all_of(found.begin(), found.end(),
                                     [&](const tune::TuneRecord& record) { return record.id == found.front().id; });
    if (found.size() > 1 && !(are_one && any_of_a_tune))
        throw Refused({Part::tune, Reason::several_settings, which, {}, std::move(found)});
    return std::move(found.front());
}

}  // namespace answers
