#include "cli/tune_named.h"

#include <charconv>
#include <vector>

#include "base/utf8.h"
#include "cli/terminal.h"
#include "report/listing.h"
#include "tune/title_match.h"

namespace cli {

namespace {

std::vector<tune::TuneRecord> tunes_named(const library::Library& library, const std::string& which) {
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(which.data(), which.data() + which.size(), id);
    if (error == std::errc() && end == which.data() + which.size())
        if (auto record = library.tune_by_id({id})) return {*record};
    return library.tunes_titled(which);
}

// `; near it: The Mackerel Auction (33)`; how to look further where nothing is near.
std::string near_it(const library::Library& library, const std::string& which) {
    std::string near;
    std::vector<tune::TitleCandidate> candidates = tune::TitleIndex(library.titled_tunes()).match(which).candidates;
    if (candidates.size() > tune::kMostSuggestions) candidates.resize(tune::kMostSuggestions);
    for (const tune::TitleCandidate& candidate : candidates)
        near += (near.empty() ? "; near it: " : ", ") + base::printable(candidate.title) + " (" +
                std::to_string(candidate.id.value) + ")";
    return near.empty() ? "; gamut tunes --title WORD looks for a word" : near;
}

}  // namespace

std::optional<tune::TuneRecord> tune_named(const library::Library& library, const std::string& which) {
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

}  // namespace cli
