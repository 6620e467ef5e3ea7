// Tested by the golden cases of tests/golden/next.
#include "report/pages/ladder_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/words/load_words.h"
#include "report/words/words.h"

namespace report {

namespace {

using repertoire::LoadPart;
using repertoire::Rung;

// `C5; 2 of its bars`: what the rung brings of the tune at the top.
std::string brings_in_words(const Rung& rung) {
    std::string words = rung.brings.empty() ? "" : note_list(rung.brings);
    if (rung.shared_bars > 0) words += (words.empty() ? "" : "; ") + std::to_string(rung.shared_bars) + " of its bars";
    return words;
}

int highest_rung(const answers::LadderAnswer& page) {
    int points = 0;
    for (const Rung& rung : page.ladder.rungs) points = std::max(points, rung.points);
    return points;
}

std::string how_sure(const repertoire::Ladder& ladder) {
    if (ladder.stones_possible == 0) return "No easier tune brings any of it.";
    const std::string best = "the best ladder is the one with no step much harder than the others.";
    if (ladder.is_best)
        return fmt::format("Every tune that can help ({}) was tried, in every order, {} at most; {}",
                           ladder.stones_possible, repertoire::kMostStones, best);
    return fmt::format(
        "Of the {} tunes that can help {} of every kind were tried in every order, {} at most, and then others until "
        "{} "
        "million looks were done: there may be a better ladder; {}",
        ladder.stones_possible, repertoire::kTriedFirst, repertoire::kMostStones,
        repertoire::kMostEvaluations / 1'000'000, best);
}

}  // namespace

Document describe(const answers::LadderAnswer& page) {
    Document document;
    const tune::TuneRecord& top = page.records.back();
    document.blocks.emplace_back(
        Title{fmt::format("A ladder to {} ({}), for {}", title_of(top), top.id.value, page.player)});
    Table table{{{"rung"},
                 {"id"},
                 {"title", Fit::wrapped, 14},
                 {"rhythm"},
                 {"new notes", Fit::wrapped, 8},
                 {"bars to learn", Fit::wrapped, 8},
                 {"points"},
                 {"brings", Fit::wrapped, 12}},
                {}};
    for (std::size_t at = 0; at < page.ladder.rungs.size(); ++at) {
        const Rung& rung = page.ladder.rungs[at];
        const tune::TuneRecord& record = page.records[at];
        table.rows.push_back(
            {Cell(static_cast<std::int64_t>(at + 1)), Cell(record.id.value), Cell(title_of(record)),
             record.rhythm ? Cell(marked_rhythm(record.rhythm->value, is_rhythm_guessed(record))) : Cell(),
             Cell(load_in_words(rung.load, LoadPart::notes)), Cell(load_in_words(rung.load, LoadPart::bars)),
             Cell(in_tenths(rung.points)),
             Cell(&rung == &page.ladder.rungs.back() ? "the tune" : brings_in_words(rung))});
    }
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{
        page.ladder.rungs.size() == 1
            ? "No stepping stone makes it easier: go straight for it."
            : fmt::format("At once the tune would be {} points; here no rung is more than {}. Points count notes, the "
                          "times they are struck and bars to learn, as --weigh says.",
                          in_tenths(page.ladder.points_at_once), in_tenths(highest_rung(page)))});
    document.blocks.emplace_back(Paragraph{how_sure(page.ladder)});
    if (std::any_of(page.records.begin(), page.records.end(), is_rhythm_guessed))
        document.blocks.emplace_back(Paragraph{kRhythmGuessed});
    return document;
}

Document tabulate(const answers::LadderAnswer& page) {
    Table table;
    for (const char* title : {"rung", "id", "title", "rhythm", "notes", "strikes", "bars", "different_bars", "points",
                              "brings_notes", "brings_bars"})
        table.columns.push_back({title});
    for (std::size_t at = 0; at < page.ladder.rungs.size(); ++at) {
        const Rung& rung = page.ladder.rungs[at];
        const tune::TuneRecord& record = page.records[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(record.id.value),
                              record.titles.empty() ? Cell() : Cell(record.titles.front()),
                              record.rhythm ? Cell(record.rhythm->value) : Cell(),
                              rung.load.fresh.empty() ? Cell() : Cell(Notes{rung.load.fresh}),
                              Cell(std::int64_t{rung.load.strikes}), Cell(std::int64_t{rung.load.bars_to_learn}),
                              Cell(std::int64_t{rung.load.different_bars}), Cell(in_tenths(rung.points)),
                              rung.brings.empty() ? Cell() : Cell(Notes{rung.brings}),
                              Cell(std::int64_t{rung.shared_bars})});
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::LadderAnswer& page) {
    Json json;
    json["version"] = 1;
    json["player"] = page.player;
    json["towards"] = page.records.back().id.value;
    json["points_at_once"] = page.ladder.points_at_once / 10.0;
    json["possible"] = page.ladder.stones_possible;
    json["proof"] = page.ladder.is_best ? "optimal" : "best of those tried";
    json["rungs"] = Json::array();
    for (std::size_t at = 0; at < page.ladder.rungs.size(); ++at) {
        const Rung& rung = page.ladder.rungs[at];
        const tune::TuneRecord& record = page.records[at];
        Json one;
        one["id"] = record.id.value;
        one["title"] = record.titles.empty() ? Json(nullptr) : Json(record.titles.front());
        one["load"] = load_json(rung.load);
        one["points"] = rung.points / 10.0;
        one["brings"] = {{"notes", note_names(rung.brings)}, {"bars", rung.shared_bars}};
        json["rungs"].push_back(std::move(one));
    }
    return finish(json);
}

}  // namespace report
