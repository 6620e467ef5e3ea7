#include "report/pages/match_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace report {

namespace {

using tune::Likeness;
using tune::MatchKind;

music::NoteSet missing_of(const answers::MatchAnswer& page, const tune::TuneRecord& record) {
    return page.have ? record.needed.without(*page.have) : music::NoteSet();
}

std::int64_t count_of(const answers::MatchAnswer& page, MatchKind kind) {
    return std::count_if(page.lines.begin(), page.lines.end(),
                         [kind](const answers::MatchedLine& line) { return line.match.kind == kind; });
}

std::int64_t count_left_out(const answers::MatchAnswer& page) {
    return std::count_if(page.lines.begin(), page.lines.end(),
                         [](const answers::MatchedLine& line) { return line.is_left_out; });
}

std::string in_words(const tune::TitleCandidate& candidate) {
    switch (candidate.likeness) {
        case Likeness::exact:
            return "has this title";
        case Likeness::words_in_a_row:
        case Likeness::words:
            return "has these words";
        case Likeness::beginnings:
            return "has words that begin so";
        case Likeness::stands_in_it:
            return "its title stands in it";
        case Likeness::spelling:
            break;
    }
    return counted(candidate.distance, "letter off", "letters off");
}

// Empty where it says the same as the title.
Cell as_written(const answers::MatchedLine& line) {
    return line.match.written == title_of(*line.tune) ? Cell() : Cell(line.match.written);
}

void add_matched(const answers::MatchAnswer& page, bool left_out, Document& document) {
    std::vector<const answers::MatchedLine*> lines;
    for (const answers::MatchedLine& line : page.lines)
        if (line.tune && line.is_left_out == left_out) lines.push_back(&line);
    if (lines.empty()) return;
    const auto lacks = [&](const answers::MatchedLine* line) { return missing_of(page, *line->tune).size(); };
    std::stable_sort(lines.begin(), lines.end(),
                     [&](const answers::MatchedLine* a, const answers::MatchedLine* b) { return lacks(a) < lacks(b); });
    document.blocks.emplace_back(Heading{left_out ? "In the library, but left out by the filters" : "In the library"});
    Table table{{{"id"}, {"title", Fit::wrapped, 20}, {"rhythm"}, {"key"}}, {}};
    if (page.have) table.columns.push_back({"notes", Fit::wrapped, 8});
    const bool any_differs = std::any_of(
        lines.begin(), lines.end(), [](const answers::MatchedLine* line) { return as_written(*line).index() != 0; });
    if (any_differs) table.columns.push_back({"as written", Fit::wrapped, 12});
    for (const answers::MatchedLine* line : lines) {
        const tune::TuneRecord& record = *line->tune;
        auto& row = table.rows.emplace_back();
        row = {Cell(record.id.value), Cell(title_of(record)), record.rhythm ? Cell(record.rhythm->value) : Cell(),
               record.key ? Cell(music::to_string(*record.key)) : Cell()};
        if (page.have) {
            const music::NoteSet missing = missing_of(page, record);
            row.push_back(missing.empty() ? Cell(std::string("fits"))
                                          : Cell(Notes{missing, tune::spelling_fifths(record)}));
        }
        if (any_differs) row.push_back(as_written(*line));
    }
    document.blocks.emplace_back(std::move(table));
    for (const answers::MatchedLine* line : lines)
        if (line->match.corrected)
            document.blocks.emplace_back(Paragraph{"A letter was put right: \"" + line->match.written +
                                                   "\" is taken for " + title_of(*line->tune) + "."});
}

void add_unsettled(const answers::MatchAnswer& page, MatchKind kind, Document& document) {
    Table table{{{"as written", Fit::wrapped, 16}, {"id"}, {"title", Fit::wrapped, 20}, {"why", Fit::wrapped, 12}}, {}};
    for (const answers::MatchedLine& line : page.lines) {
        if (line.match.kind != kind) continue;
        if (line.match.candidates.empty())
            table.rows.push_back({Cell(line.match.written), Cell(), Cell(), Cell(std::string("nothing is like it"))});
        bool is_first = true;
        for (const tune::TitleCandidate& candidate : line.match.candidates) {
            table.rows.push_back({is_first ? Cell(line.match.written) : Cell(FromAbove{}), Cell(candidate.id.value),
                                  Cell(candidate.title), Cell(in_words(candidate))});
            is_first = false;
        }
    }
    if (table.rows.empty()) return;
    document.blocks.emplace_back(
        Heading{kind == MatchKind::doubtful ? "In doubt: which is meant?" : "Not in the library, and what is nearest"});
    document.blocks.emplace_back(std::move(table));
}

std::string summary_of(const answers::MatchAnswer& page) {
    const auto all = static_cast<std::int64_t>(page.lines.size());
    if (all == 0) return "There is no title in " + page.name + ".";
    std::string text =
        fmt::format("{}: {} in the library", counted(all, "title", "titles"), count_of(page, MatchKind::matched));
    const auto corrected = std::count_if(page.lines.begin(), page.lines.end(),
                                         [](const answers::MatchedLine& line) { return line.match.corrected; });
    if (corrected > 0) text += fmt::format(" ({} with a letter put right)", corrected);
    text += fmt::format(", {} in doubt, {} not found.", count_of(page, MatchKind::doubtful),
                        count_of(page, MatchKind::unmatched));
    if (const std::int64_t out = count_left_out(page); out > 0) {
        std::string filters;
        for (const answers::Sieve& sieve : page.why)
            filters += (filters.empty() ? "--" : ", --") + std::string(sieve.filter);
        text += fmt::format(" {} left out by {}.", counted(out, "of them is", "of them are"), filters);
    }
    if (!page.have) return text;
    const auto fit = std::count_if(page.lines.begin(), page.lines.end(), [&](const answers::MatchedLine& line) {
        return line.tune && !line.is_left_out && missing_of(page, *line.tune).empty();
    });
    return text + fmt::format(" Of those in the library {} your notes.", counted(fit, "fits", "fit"));
}

}  // namespace

Document describe(const answers::MatchAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{"A list of titles", true});
    add_matched(page, false, document);
    add_matched(page, true, document);
    add_unsettled(page, MatchKind::doubtful, document);
    add_unsettled(page, MatchKind::unmatched, document);
    document.blocks.emplace_back(Paragraph{summary_of(page)});
    return document;
}

Document tabulate(const answers::MatchAnswer& page) {
    Table table;
    for (const char* title : {"line", "written", "kind", "corrected", "left_out", "id", "title", "likeness", "distance",
                              "rhythm", "key", "fits", "missing"})
        table.columns.push_back({title});
    const auto yes_or_no = [](bool yes) { return Cell(std::string(yes ? "yes" : "no")); };
    for (const answers::MatchedLine& line : page.lines) {
        const std::vector<Cell> common{Cell(std::int64_t{line.line}), Cell(line.match.written),
                                       Cell(std::string(tune::to_string(line.match.kind))),
                                       yes_or_no(line.match.corrected), yes_or_no(line.is_left_out)};
        if (line.match.candidates.empty()) {
            table.rows.push_back(common);
            table.rows.back().resize(table.columns.size());
        }
        for (const tune::TitleCandidate& candidate : line.match.candidates) {
            auto& row = table.rows.emplace_back(common);
            row.insert(row.end(), {Cell(candidate.id.value), Cell(candidate.title),
                                   Cell(std::string(tune::to_string(candidate.likeness))),
                                   Cell(std::int64_t{candidate.distance})});
            if (line.tune) {
                row.push_back(line.tune->rhythm ? Cell(line.tune->rhythm->value) : Cell());
                row.push_back(line.tune->key ? Cell(music::to_string(*line.tune->key)) : Cell());
                const music::NoteSet missing = missing_of(page, *line.tune);
                if (page.have) row.push_back(yes_or_no(missing.empty()));
                if (!missing.empty()) row.emplace_back(Notes{missing, tune::spelling_fifths(*line.tune)});
            }
            row.resize(table.columns.size());
        }
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::MatchAnswer& page) {
    Json match;
    match["titles"] = Json::array();
    for (const answers::MatchedLine& line : page.lines) {
        Json row;
        row["line"] = line.line;
        row["written"] = line.match.written;
        row["kind"] = tune::to_string(line.match.kind);
        row["corrected"] = line.match.corrected;
        row["left_out"] = line.is_left_out;
        row["candidates"] = Json::array();
        for (const tune::TitleCandidate& candidate : line.match.candidates)
            row["candidates"].push_back({{"id", candidate.id.value},
                                         {"title", candidate.title},
                                         {"likeness", tune::to_string(candidate.likeness)},
                                         {"distance", candidate.distance}});
        row["tune"] = line.tune ? row_json(*line.tune, page.have) : Json(nullptr);
        match["titles"].push_back(std::move(row));
    }
    match["matched"] = count_of(page, MatchKind::matched);
    match["doubtful"] = count_of(page, MatchKind::doubtful);
    match["unmatched"] = count_of(page, MatchKind::unmatched);
    match["left_out"] = count_left_out(page);
    Json json;
    json["version"] = 1;
    json["match"] = std::move(match);
    return finish(json);
}

}  // namespace report
