#include "report/pages/check_page.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>
#include <tuple>

#include "report/pages/kin_page.h"
#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace report {

namespace {

using answers::CheckedOddity;

std::int64_t shown(const CheckPage& page) { return static_cast<std::int64_t>(page.answer.rows.size()); }

std::int64_t count_of(const CheckPage& page, tune::OddityKind kind) {
    const auto found = page.answer.counts.find(kind);
    return found == page.answer.counts.end() ? 0 : found->second;
}

// `path:line:column`, as editors and terminals know it.
std::string place_of(const CheckedOddity& row) {
    return row.file + ":" + std::to_string(row.line) + ":" + std::to_string(row.column);
}

std::string title_in_row(const CheckedOddity& row) { return row.tune ? tune::title_or_none(row.title) : row.title; }

using Group = std::vector<const CheckedOddity*>;

Group rows_of(const CheckPage& page, tune::OddityKind kind) {
    Group group;
    for (const CheckedOddity& row : page.answer.rows)
        if (row.kind == kind) group.push_back(&row);
    return group;
}

// The advice most rows have in common, the first met among equals; it is said once, above them.
std::string commonest_advice(const Group& group) {
    std::map<std::string_view, std::size_t> times;
    for (const CheckedOddity* row : group) ++times[row->advice];
    std::string_view commonest;
    for (const CheckedOddity* row : group)
        if (commonest.empty() || times[row->advice] > times[commonest]) commonest = row->advice;
    return times[commonest] > 1 ? std::string(commonest) : "";
}

// What is said of one tune again and again is told where it stands first.
struct Told {
    const CheckedOddity* row;
    std::size_t times = 1;
};

std::vector<Told> told_once(const Group& group) {
    std::vector<Told> told;
    std::map<std::tuple<std::string_view, std::int64_t, std::string_view>, std::size_t> places;
    for (const CheckedOddity* row : group) {
        const auto [at, is_new] = places.emplace(
            std::tuple(std::string_view(row->file), row->tune ? row->tune->value : 0, std::string_view(row->message)),
            told.size());
        if (is_new)
            told.push_back({row});
        else
            ++told[at->second].times;
    }
    return told;
}

bool share_advice(const Group& group, const std::string& advice) {
    return std::all_of(group.begin(), group.end(), [&](const CheckedOddity* row) { return row->advice == advice; });
}

std::string place_and_title(const CheckedOddity& row) {
    const std::string title = title_in_row(row);
    return place_of(row) + (title.empty() ? "" : "  " + title);
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
    Remarks remarks;
    for (const auto& [row, times] : told_once(group)) {
        const std::string more =
            times > 1 ? " (" + std::to_string(times) + " times in this " + (row->tune ? "tune" : "file") + ")" : "";
        Remark& remark = remarks.remarks.emplace_back(Remark{place_and_title(*row), {row->message + more}});
        if (row->advice != advice && !row->advice.empty()) remark.words.push_back(row->advice);
    }
    document.blocks.emplace_back(std::move(remarks));
}

// --- in brief

// Remarks about signs, bars and repeats are worth knowing and no more: they are counted with the rest.
bool is_told_in_place(const CheckedOddity& row) {
    const bool may_be_remark = row.kind == tune::OddityKind::key_label || row.kind == tune::OddityKind::twin ||
                               row.kind == tune::OddityKind::out_of_reach;
    return tune::touches_music(row.kind) && (row.severity != base::Severity::remark || may_be_remark);
}

struct FileCount {
    std::string_view file;
    std::size_t rows = 0;
};

// One kind as it is told: places, then files with how much more they hold.
struct BriefGroup {
    tune::OddityKind kind;
    std::vector<Told> places;
    std::vector<FileCount> files;  // the fullest first
};

std::vector<BriefGroup> brief_groups(const CheckPage& page) {
    std::vector<BriefGroup> groups;
    for (const tune::OddityKind kind : tune::kOddityKinds) {
        Group in_place;
        std::map<std::string_view, std::size_t> of_file;
        for (const CheckedOddity* row : rows_of(page, kind)) {
            if (is_told_in_place(*row))
                in_place.push_back(row);
            else
                ++of_file[row->file];
        }
        BriefGroup group{kind, told_once(in_place), {}};
        for (const auto& [file, rows] : of_file) group.files.push_back({file, rows});
        std::stable_sort(group.files.begin(), group.files.end(),
                         [](const FileCount& a, const FileCount& b) { return a.rows > b.rows; });
        if (!group.places.empty() || !group.files.empty()) groups.push_back(std::move(group));
    }
    return groups;
}

// How many of each kind are shown.
struct Depth {
    std::size_t places;
    std::size_t files;
};

std::size_t lines_of(const std::vector<BriefGroup>& groups, Depth depth) {
    std::size_t lines = 0;
    for (const BriefGroup& group : groups) {
        const std::size_t places = std::min(depth.places, group.places.size());
        const std::size_t files = std::min(depth.files, group.files.size());
        lines += 2 + 2 * places + files + (places < group.places.size() || files < group.files.size() ? 1 : 0);
    }
    return lines;
}

// The deepest that still fits, at least one of each.
Depth depth_for(const std::vector<BriefGroup>& groups) {
    constexpr std::array<Depth, 7> kDepths{{{10, 6}, {7, 4}, {5, 3}, {4, 3}, {3, 2}, {2, 1}, {1, 1}}};
    for (const Depth& depth : kDepths)
        if (lines_of(groups, depth) <= kScreenLines) return depth;
    return kDepths.back();
}

// Told in full: two lines a place, and often one of advice.
bool fits_in_full(const CheckPage& page) {
    std::size_t lines = 0;
    for (const tune::OddityKind kind : tune::kOddityKinds)
        if (const std::size_t told = told_once(rows_of(page, kind)).size(); told > 0) lines += 3 + 2 * told;
    return lines <= kScreenLines;
}

void add_brief(const CheckPage& page, const BriefGroup& group, Depth depth, Document& document) {
    document.blocks.emplace_back(Heading{std::string(tune::oddity_heading(group.kind)) + " (" +
                                         std::to_string(count_of(page, group.kind)) + ")"});
    const std::size_t places = std::min(depth.places, group.places.size());
    const std::size_t files = std::min(depth.files, group.files.size());
    Remarks remarks;
    for (std::size_t at = 0; at < places; ++at) {
        const auto& [row, times] = group.places[at];
        const std::string more = times > 1 ? " (" + std::to_string(times) + " times)" : "";
        remarks.remarks.push_back({place_and_title(*row), {row->message + more}});
    }
    document.blocks.emplace_back(std::move(remarks));
    for (std::size_t at = 0; at < files; ++at)
        document.blocks.emplace_back(Paragraph{std::string(group.files[at].file) + ": " + (places > 0 ? "also " : "") +
                                               std::to_string(group.files[at].rows)});
    const std::size_t more_places = group.places.size() - places, more_files = group.files.size() - files;
    if (more_places + more_files == 0) return;
    const std::string rest =
        more_places == 0  ? "in " + counted(static_cast<std::int64_t>(more_files), "more file", "more files")
        : more_files == 0 ? std::to_string(more_places) + " more"
                          : std::to_string(more_places) + " more, and in " +
                                counted(static_cast<std::int64_t>(more_files), "more file", "more files");
    document.blocks.emplace_back(
        Hint{"and " + rest + ": gamut check --kind " + std::string(tune::oddity_token(group.kind))});
}

std::string summary_of(const CheckPage& page) {
    const std::string looked =
        "Looked at " + counted(page.answer.tunes_checked, "tune", "tunes") +
        (page.answer.files_checked ? " in " + counted(*page.answer.files_checked, "file", "files") : "") + ": ";
    const std::int64_t matched = page.answer.matched();
    if (matched == 0) return looked + (page.is_part ? "none of these." : "nothing looks wrong.");
    std::string words = looked + counted(matched, "thing looks", "things look") + " odd";
    if (shown(page) < matched) words += ", " + std::to_string(shown(page)) + " shown (--limit)";
    return words + ". Your files are never changed.";
}

void word_twin(const answers::FoundTwin& twin, CheckedOddity& row) {
    const std::string both = std::to_string(twin.one.value) + " " + std::to_string(twin.other.value);
    row.message = "Is " + likeness_in_words(twin.likeness) + " like " + title_of(twin.record) + " (" +
                  twin.record.file + ":" + std::to_string(twin.record.line) + ") and probably the same tune.";
    row.advice = "If it is: gamut same " + both + "; if not: gamut same --not " + both + ".";
}

}  // namespace

CheckPage checked_in_words(answers::CheckAnswer answer) {
    for (CheckedOddity& row : answer.rows) {
        if (row.twin) word_twin(*row.twin, row);
        if (!row.outside.empty())
            row.message = "Needs " + note_list(row.outside, row.fifths) + ", which " +
                          (row.outside.size() == 1 ? "is" : "are") + " not among the notes given.";
    }
    return {std::move(answer)};
}

Document describe(const CheckPage& page) {
    Document document;
    document.blocks.emplace_back(Title{"What looks odd", true});
    const bool is_brief = page.is_brief && !fits_in_full(page);
    if (is_brief) {
        const std::vector<BriefGroup> groups = brief_groups(page);
        const Depth depth = depth_for(groups);
        for (const BriefGroup& group : groups) add_brief(page, group, depth, document);
    } else {
        for (const tune::OddityKind kind : tune::kOddityKinds) add_group(page, kind, document);
    }
    if (document.blocks.size() > 1) document.blocks.emplace_back(SectionEnd{});
    document.blocks.emplace_back(Paragraph{summary_of(page)});
    if (page.answer.matched() > 0 && !page.is_part)
        document.blocks.emplace_back(Hint{
            is_brief ? "--all shows every place with advice, --kind one kind (--kind bar-length), --csv makes a table."
                     : "--kind shows one kind alone (--kind bar-length), --csv puts every place into a table."});
    return document;
}

Document tabulate(const CheckPage& page) {
    Table table{{}, {}};
    for (const char* title : {"kind", "severity", "file", "line", "column", "tune", "title", "message", "advice"})
        table.columns.push_back({title});
    const auto text_or_nothing = [](const std::string& text) { return text.empty() ? Cell() : Cell(text); };
    for (const CheckedOddity& row : page.answer.rows)
        table.rows.push_back({Cell(std::string(tune::oddity_token(row.kind))),
                              Cell(std::string(base::severity_token(row.severity))), Cell(row.file),
                              Cell(std::int64_t{row.line}), Cell(std::int64_t{row.column}),
                              row.tune ? Cell(row.tune->value) : Cell(), text_or_nothing(row.title), Cell(row.message),
                              text_or_nothing(row.advice)});
    return {{std::move(table)}};
}

std::string as_json(const CheckPage& page) {
    const auto text_or_null = [](const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); };
    Json json;
    json["version"] = 1;
    json["oddities"] = Json::array();
    for (const CheckedOddity& row : page.answer.rows)
        json["oddities"].push_back({{"kind", tune::oddity_token(row.kind)},
                                    {"severity", base::severity_token(row.severity)},
                                    {"file", row.file},
                                    {"line", row.line},
                                    {"column", row.column},
                                    {"tune", row.tune ? Json(row.tune->value) : Json(nullptr)},
                                    {"title", text_or_null(row.title)},
                                    {"message", row.message},
                                    {"advice", text_or_null(row.advice)}});
    json["counts"] = Json::object();
    for (const tune::OddityKind kind : tune::kOddityKinds)
        json["counts"][std::string(tune::oddity_token(kind))] = count_of(page, kind);
    json["matched"] = page.answer.matched();
    json["shown"] = shown(page);
    json["tunes_checked"] = page.answer.tunes_checked;
    json["files_checked"] = or_null(page.answer.files_checked);
    return finish(json);
}

}  // namespace report
