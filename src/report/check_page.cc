#include "report/check_page.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>

#include "report/json.h"
#include "report/words.h"
#include "tune/title.h"

namespace report {

namespace {

std::int64_t count_of(const CheckPage& page, tune::OddityKind kind) {
    const auto found = page.counts.find(kind);
    return found == page.counts.end() ? 0 : found->second;
}

// `path:line:column`, as editors and terminals know it.
std::string place_of(const CheckRow& row) {
    return row.file + ":" + std::to_string(row.line) + ":" + std::to_string(row.column);
}

std::string title_in_row(const CheckRow& row) { return row.tune ? tune::title_or_none(row.title) : row.title; }

using Group = std::vector<const CheckRow*>;

Group rows_of(const CheckPage& page, tune::OddityKind kind) {
    Group group;
    for (const CheckRow& row : page.rows)
        if (row.kind == kind) group.push_back(&row);
    return group;
}

// The advice most rows have in common, the first met among equals; it is said once, above them.
std::string commonest_advice(const Group& group) {
    std::map<std::string_view, std::size_t> times;
    for (const CheckRow* row : group) ++times[row->advice];
    std::string_view commonest;
    for (const CheckRow* row : group)
        if (commonest.empty() || times[row->advice] > times[commonest]) commonest = row->advice;
    return times[commonest] > 1 ? std::string(commonest) : "";
}

// What is said of one tune again and again is told where it stands first.
struct Told {
    const CheckRow* row;
    std::size_t times = 1;
};

std::vector<Told> told_once(const Group& group) {
    std::vector<Told> told;
    std::map<std::tuple<std::string_view, std::int64_t, std::string_view>, std::size_t> places;
    for (const CheckRow* row : group) {
        const auto [at, is_new] = places.emplace(
            std::tuple(std::string_view(row->file), row->tune.value_or(0), std::string_view(row->message)),
            told.size());
        if (is_new)
            told.push_back({row});
        else
            ++told[at->second].times;
    }
    return told;
}

bool share_advice(const Group& group, const std::string& advice) {
    return std::all_of(group.begin(), group.end(), [&](const CheckRow* row) { return row->advice == advice; });
}

void add_group(const CheckPage& page, tune::OddityKind kind, Document& document) {
    const std::int64_t all = count_of(page, kind);
    const Group group = rows_of(page, kind);
    if (all == 0 && group.empty()) return;
    const auto shown = static_cast<std::int64_t>(group.size());
    const std::string how_many =
        shown < all ? std::to_string(shown) + " of " + std::to_string(all) + " shown" : std::to_string(all);
    document.blocks.emplace_back(Heading{std::string(tune::oddity_heading(kind)) + " (" + how_many + ")"});
    const std::string advice = commonest_advice(group);
    if (!advice.empty())
        document.blocks.emplace_back(Paragraph{(share_advice(group, advice) ? "" : "Mostly: ") + advice});
    for (const auto& [row, times] : told_once(group)) {
        const std::string title = title_in_row(*row);
        document.blocks.emplace_back(Paragraph{place_of(*row) + (title.empty() ? "" : "  " + title)});
        const std::string more =
            times > 1 ? " (" + std::to_string(times) + " times in this " + (row->tune ? "tune" : "file") + ")" : "";
        Particulars words{{{"", row->message + more}}};
        if (row->advice != advice && !row->advice.empty()) words.lines.emplace_back("", row->advice);
        document.blocks.emplace_back(std::move(words));
    }
}

std::string summary_of(const CheckPage& page) {
    const std::string looked = "Looked at " + counted(page.tunes_checked, "tune", "tunes") +
                               (page.files_checked ? " in " + counted(*page.files_checked, "file", "files") : "") +
                               ": ";
    const std::int64_t matched = page.matched();
    if (matched == 0) return looked + (page.is_part ? "nothing of what was asked for." : "nothing looks wrong.");
    std::string words = looked + counted(matched, "thing looks", "things look") + " odd";
    if (page.shown() < matched) words += ", " + std::to_string(page.shown()) + " shown (--limit)";
    return words + ". Your files are never changed.";
}

}  // namespace

std::int64_t CheckPage::matched() const {
    std::int64_t sum = 0;
    for (const auto& [kind, count] : counts) sum += count;
    return sum;
}

Document describe_check(const CheckPage& page) {
    Document document;
    for (const tune::OddityKind kind : tune::kOddityKinds) add_group(page, kind, document);
    if (!document.blocks.empty()) document.blocks.emplace_back(Verbatim{"\n"});
    document.blocks.emplace_back(Paragraph{summary_of(page)});
    if (page.matched() > 0 && !page.is_part)
        document.blocks.emplace_back(
            Paragraph{"--kind shows one kind alone (--kind bar-length), --csv puts every place into a table."});
    return document;
}

Document tabulate_check(const CheckPage& page) {
    Table table{{}, {}};
    for (const char* title : {"kind", "severity", "file", "line", "column", "tune", "title", "message", "advice"})
        table.columns.push_back({title, false});
    const auto text_or_nothing = [](const std::string& text) { return text.empty() ? Cell() : Cell(text); };
    for (const CheckRow& row : page.rows)
        table.rows.push_back({Cell(std::string(tune::oddity_token(row.kind))),
                              Cell(std::string(base::severity_token(row.severity))), Cell(row.file),
                              Cell(std::int64_t{row.line}), Cell(std::int64_t{row.column}),
                              row.tune ? Cell(*row.tune) : Cell(), text_or_nothing(row.title), Cell(row.message),
                              text_or_nothing(row.advice)});
    return {{std::move(table)}};
}

std::string check_json(const CheckPage& page) {
    const auto text_or_null = [](const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); };
    Json json;
    json["version"] = 1;
    json["oddities"] = Json::array();
    for (const CheckRow& row : page.rows)
        json["oddities"].push_back({{"kind", tune::oddity_token(row.kind)},
                                    {"severity", base::severity_token(row.severity)},
                                    {"file", row.file},
                                    {"line", row.line},
                                    {"column", row.column},
                                    {"tune", or_null(row.tune)},
                                    {"title", text_or_null(row.title)},
                                    {"message", row.message},
                                    {"advice", text_or_null(row.advice)}});
    json["counts"] = Json::object();
    for (const tune::OddityKind kind : tune::kOddityKinds)
        json["counts"][std::string(tune::oddity_token(kind))] = count_of(page, kind);
    json["matched"] = page.matched();
    json["shown"] = page.shown();
    json["tunes_checked"] = page.tunes_checked;
    json["files_checked"] = or_null(page.files_checked);
    return finish(json);
}

}  // namespace report
