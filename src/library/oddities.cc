// Tested by oddities_test.cc.
#include <algorithm>
#include <tuple>

#include "library/database.h"
#include "library/library.h"
#include "library/said_kinds.h"
#include "library/statement.h"

namespace library {

namespace {

struct Placed {
    std::string path;
    collection::FoundOddity found;
};

constexpr const char* kOfSettings =
    "SELECT f.path, f.shown, s.tune_id, t.text, o.line, o.\"column\", o.severity, o.kind, o.message, s.id, o.advice "
    "FROM "
    "oddity o"
    " JOIN setting s ON s.id = o.setting_id JOIN file f ON f.id = s.file_id"
    " LEFT JOIN title t ON t.setting_id = s.id AND t.place = 0 WHERE s.gone = 0 ORDER BY o.setting_id, o.place";

// The setting a finding of the reader belongs to is the last that begins at or before its line.
constexpr const char* kOfFiles =
    "SELECT f.path, f.shown, s.tune_id, t.text, d.line, d.\"column\", d.severity, d.code, d.message, s.id FROM "
    "diagnostic d"
    " JOIN file f ON f.id = d.file_id"
    " LEFT JOIN setting s ON s.id = (SELECT id FROM setting b WHERE b.file_id = d.file_id AND b.gone = 0 AND b.line <= "
    "d.line"
    " ORDER BY b.line DESC LIMIT 1)"
    " LEFT JOIN title t ON t.setting_id = s.id AND t.place = 0 WHERE f.gone = 0 ORDER BY d.id";

collection::FoundOddity found_in(const Statement& row) {
    collection::FoundOddity found;
    found.file = row.text(1);
    if (!row.is_null(2)) found.tune = tune::TuneId{row.number(2)};
    found.title = row.text(3);
    found.oddity.line = static_cast<std::uint32_t>(row.number(4));
    found.oddity.column = static_cast<std::uint32_t>(row.number(5));
    found.oddity.severity = base::parse_severity(row.text(6)).value_or(base::Severity::remark);
    found.oddity.message = row.text(8);
    if (!row.is_null(9)) found.setting = tune::SettingId{row.number(9)};
    return found;
}

}  // namespace

std::vector<collection::FoundOddity> Library::oddities() const {
    std::vector<Placed> placed;
    const collection::SaidKinds said = said_kinds_of(*database_);
    Statement of_settings(*database_, kOfSettings);
    while (of_settings.step()) {
        Placed one{std::string(of_settings.text(0)), found_in(of_settings)};
        one.found.oddity.kind = tune::parse_oddity_kind(of_settings.text(7)).value_or(tune::OddityKind::unreadable);
        one.found.oddity.advice = of_settings.text(10);
        if (!said.settles(one.found)) placed.push_back(std::move(one));
    }
    Statement of_files(*database_, kOfFiles);
    while (of_files.step()) {
        Placed one{std::string(of_files.text(0)), found_in(of_files)};
        one.found.oddity.kind = tune::kind_of_code(of_files.text(7));
        one.found.oddity.advice = tune::oddity_advice(one.found.oddity.kind);
        if (!said.settles(one.found)) placed.push_back(std::move(one));
    }
    std::stable_sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) {
        const auto key = [](const Placed& one) {
            return std::tie(one.found.file, one.path, one.found.oddity.line, one.found.oddity.column);
        };
        return key(a) < key(b);
    });
    std::vector<collection::FoundOddity> found;
    found.reserve(placed.size());
    for (Placed& one : placed) found.push_back(std::move(one.found));
    return found;
}

}  // namespace library
