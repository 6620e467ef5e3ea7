#include "cli/tune_named.h"

#include <algorithm>
#include <charconv>
#include <vector>

#include "base/utf8.h"
#include "cli/terminal.h"
#include "report/listing.h"
#include "tune/title_match.h"

namespace cli {

namespace {

std::vector<tune::TuneRecord> tunes_named(const collection::Collection& library, const std::string& which) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error == std::errc() && end == which.data() + which.size())
        if (auto record = library.tune_by_id({id})) return {*record};
    return library.tunes_titled(which);
}

// `; near it: The Mackerel Auction (33)`; how to look further where nothing is near.
std::string near_it(const collection::Collection& library, const std::string& which) {
    std::string near;
    std::vector<tune::TitleCandidate> candidates = tune::TitleIndex(library.titled_tunes()).match(which).candidates;
    if (candidates.size() > tune::kMostSuggestions) candidates.resize(tune::kMostSuggestions);
    for (const tune::TitleCandidate& candidate : candidates)
        near += (near.empty() ? "; near it: " : ", ") + base::printable(candidate.title) + " (" +
                std::to_string(candidate.id.value) + ")";
    return near.empty() ? "; gamut tunes --title WORD looks for a word" : near;
}

}  // namespace

std::optional<tune::TuneRecord> tune_named(const collection::Collection& library, const std::string& which) {
    const std::vector<tune::TuneRecord> found = tunes_named(library, which);
    const std::string shown = "\"" + base::printable(which) + "\"";
    if (found.empty()) {
        write_notice("gamut: no tune has the id or title " + shown + near_it(library, which) + "\n");
        return std::nullopt;
    }
    if (found.size() > 1) {
        report::Listing listing;
        listing.rows = found;
        listing.matched = static_cast<std::int64_t>(found.size());
        write_notice(report::render_text(report::describe_listing(listing), page_of_terminal()));
        throw Misuse(shown + " fits several tunes; choose one by its id");
    }
    return found.front();
}

std::optional<tune::TuneRecord> setting_named(const collection::Collection& library, const std::string& which,
                                              bool any_of_a_tune) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error == std::errc() && end == which.data() + which.size())
        if (auto record = library.setting_of_own({id})) return record;
    const std::vector<tune::TuneRecord> found = library.settings_titled(which);
    const std::string shown = "\"" + base::printable(which) + "\"";
    if (found.empty()) {
        write_notice("gamut: no tune has the id or title " + shown + "; gamut tunes --title WORD looks for a word\n");
        return std::nullopt;
    }
    const bool are_one = std::all_of(found.begin(), found.end(),
                                     [&](const tune::TuneRecord& record) { return record.id == found.front().id; });
    if (found.size() == 1 || (are_one && any_of_a_tune)) return found.front();
    report::Document document;
    report::Table table{{{"id", false}, {"title", true}, {"file", true}, {"line", false}}, {}};
    for (const tune::TuneRecord& record : found)
        table.rows.push_back({report::Cell(record.own.value), report::Cell(record.titles.front()),
                              report::Cell(record.file), report::Cell(std::int64_t{record.line})});
    document.blocks.emplace_back(std::move(table));
    write_notice(report::render_text(document, page_of_terminal()));
    throw Misuse(shown + " fits several; choose one by its id");
}

}  // namespace cli
