#include "report/pages/import_summary.h"

#include <algorithm>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

// As many as a screen holds beside the rest. Source: house choice.
constexpr std::size_t kKindsShown = 10;

std::string in_words(const collection::OddCounts& odd) {
    return counted(odd.errors, "error", "errors") + ", " + counted(odd.warnings, "warning", "warnings") + ", " +
           counted(odd.remarks, "remark", "remarks");
}

std::string odd_in_words(const ImportSummary& summary) {
    if (summary.files_read == 0 && summary.in_library.total() > 0)
        return in_words(summary.in_library) + " in what is unchanged";
    std::string words = in_words(summary.odd);
    if (summary.with_errors > 0)
        words += "; " + counted(summary.with_errors, "version has an error", "versions have an error");
    if (summary.in_library.total() > summary.odd.total())
        words += " in what was read now; in the whole library " + in_words(summary.in_library);
    return words;
}

Json json_of(const collection::OddCounts& odd) {
    return {{"errors", odd.errors}, {"warnings", odd.warnings}, {"remarks", odd.remarks}};
}

void add_kinds(Document& document, const ImportSummary& summary) {
    Table table{{{"times"}, {"files"}, {"what, and what was done", Fit::wrapped, 24}, {"first", Fit::wrapped, 12}}, {}};
    for (std::size_t at = 0; at < std::min(summary.kinds.size(), kKindsShown); ++at) {
        const collection::FoundKind& kind = summary.kinds[at];
        table.rows.push_back({Cell(kind.times), Cell(kind.files),
                              Cell(std::string(base::severity_token(kind.severity)) + ": " + kind.message),
                              Cell(kind.file + ", line " + std::to_string(kind.line))});
    }
    document.blocks.emplace_back(std::move(table));
    std::string more = "Tunes with an error are kept; what could not be read is left out of them.";
    if (summary.odd.errors == 0) more = "All tunes were read.";
    if (summary.kinds.size() > kKindsShown)
        more += " Not shown: " +
                counted(static_cast<std::int64_t>(summary.kinds.size() - kKindsShown), "more kind", "more kinds") + ".";
    document.blocks.emplace_back(
        Paragraph{more + " `gamut check` shows them tune by tune, `gamut read FILE` line by line."});
}

}  // namespace

Document describe(const ImportSummary& summary) {
    const auto n = [](std::int64_t number) { return std::to_string(number); };
    Particulars lines;
    lines.lines.emplace_back("files", n(summary.files_seen) + " seen: " + n(summary.files_read) + " read, " +
                                          n(summary.files_unchanged) + " unchanged, " + n(summary.files_failed) +
                                          " failed; " + n(summary.files_gone) + " gone");
    lines.lines.emplace_back("versions", n(summary.settings_new) + " new, " + n(summary.settings_changed) +
                                             " changed, " + n(summary.settings_same) + " same, " +
                                             n(summary.settings_gone) + " gone");
    lines.lines.emplace_back("found odd", odd_in_words(summary));
    lines.lines.emplace_back("library", summary.library);
    Document document;
    document.blocks.emplace_back(Title{"What was imported", true});
    if (summary.files_seen == 0 && summary.files_gone == 0) {
        document.blocks.emplace_back(
            Paragraph{"No ABC file was found; the library " + summary.library + " is as it was."});
        return document;
    }
    document.blocks.emplace_back(std::move(lines));
    if (!summary.kinds.empty() && !summary.are_printed) add_kinds(document, summary);
    return document;
}

std::string as_json(const ImportSummary& summary) {
    Json json;
    json["version"] = 1;
    json["files"] = {{"seen", summary.files_seen},
                     {"read", summary.files_read},
                     {"unchanged", summary.files_unchanged},
                     {"failed", summary.files_failed},
                     {"gone", summary.files_gone}};
    json["settings"] = {{"new", summary.settings_new},
                        {"changed", summary.settings_changed},
                        {"same", summary.settings_same},
                        {"gone", summary.settings_gone}};
    json["diagnostics"] = json_of(summary.odd);
    json["in_library"] = json_of(summary.in_library);
    json["settings_with_errors"] = summary.with_errors;
    json["kinds"] = Json::array();
    for (const collection::FoundKind& kind : summary.kinds)
        json["kinds"].push_back({{"code", kind.code},
                                 {"severity", base::severity_token(kind.severity)},
                                 {"times", kind.times},
                                 {"files", kind.files},
                                 {"file", kind.file},
                                 {"line", kind.line},
                                 {"message", kind.message}});
    return finish(json);
}

}  // namespace report
