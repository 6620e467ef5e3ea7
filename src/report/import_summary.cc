#include "report/import_summary.h"

#include "report/json.h"
#include "report/words.h"

namespace report {

Document describe(const ImportSummary& summary) {
    const auto n = [](std::int64_t number) { return std::to_string(number); };
    Particulars lines;
    lines.lines.emplace_back("files", n(summary.files_seen) + " seen: " + n(summary.files_read) + " read, " +
                                          n(summary.files_unchanged) + " unchanged, " + n(summary.files_failed) +
                                          " failed; " + n(summary.files_gone) + " gone");
    lines.lines.emplace_back("settings", n(summary.settings_new) + " new, " + n(summary.settings_changed) +
                                             " changed, " + n(summary.settings_same) + " same, " +
                                             n(summary.settings_gone) + " gone");
    lines.lines.emplace_back("found odd", counted(summary.errors, "error", "errors") + ", " +
                                              counted(summary.warnings, "warning", "warnings") + ", " +
                                              counted(summary.remarks, "remark", "remarks"));
    lines.lines.emplace_back("library", summary.library);
    return {{std::move(lines)}};
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
    json["diagnostics"] = {{"errors", summary.errors}, {"warnings", summary.warnings}, {"remarks", summary.remarks}};
    return finish(json);
}

}  // namespace report
