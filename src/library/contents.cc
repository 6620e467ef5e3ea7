// Tested by contents_test.cc.
#include "library/database.h"
#include "library/library.h"
#include "library/statement.h"

namespace library {

std::optional<collection::AbcText> Library::abc_of(tune::SettingId setting) const {
    Statement row(
        *database_,
        "SELECT a.text, h.text, f.shown, s.line, s.gone FROM abc a JOIN setting s ON s.id = a.setting_id"
        " JOIN file f ON f.id = s.file_id LEFT JOIN abc_header h ON h.id = a.header_id WHERE a.setting_id = ?1");
    if (!row.bind(setting.value).step()) return std::nullopt;
    collection::AbcText abc;
    if (!row.is_null(1)) abc.text = std::string(row.text(1)) + "\n\n";  // an empty line ends a file header
    abc.text += row.text(0);
    abc.file = row.text(2);
    abc.line = static_cast<std::uint32_t>(row.number(3));
    abc.gone = row.number(4) != 0;
    return abc;
}

collection::Counts Library::counts() const {
    Statement row(*database_,
                  "SELECT (SELECT count(*) FROM file WHERE gone = 0), (SELECT count(DISTINCT tune_id) FROM setting "
                  "WHERE gone = 0),"
                  " (SELECT count(*) FROM setting WHERE gone = 0), (SELECT count(*) FROM file WHERE gone = 1),"
                  " (SELECT count(*) FROM setting WHERE gone = 1)");
    row.step();
    return {row.number(0), row.number(1), row.number(2), row.number(3), row.number(4)};
}

std::vector<collection::FileDiagnostic> Library::diagnostics() const {
    std::vector<collection::FileDiagnostic> found;
    Statement rows(
        *database_,
        "SELECT f.shown, d.line, d.\"column\", d.severity, d.code, d.message FROM diagnostic d"
        " JOIN file f ON f.id = d.file_id WHERE f.gone = 0 ORDER BY f.shown, f.path, d.line, d.\"column\", d.id");
    while (rows.step())
        found.push_back({std::string(rows.text(0)),
                         {static_cast<std::uint32_t>(rows.number(1)), static_cast<std::uint32_t>(rows.number(2)),
                          base::parse_severity(rows.text(3)).value_or(base::Severity::remark),
                          std::string(rows.text(4)), std::string(rows.text(5))}});
    return found;
}

}  // namespace library
