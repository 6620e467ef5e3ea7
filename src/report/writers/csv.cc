#include "report/writers/csv.h"

#include <fmt/format.h>

#include "base/utf8.h"
#include "report/words/cell_words.h"

namespace report {

namespace {

// Spreadsheets pass over blanks of any kind and take wide forms for the narrow ones; folding does both.
bool may_be_formula(const std::string& text) {
    if (text.starts_with('\t') || text.starts_with('\r')) return true;
    const std::string folded = base::fold(text);
    const std::size_t first = folded.find_first_not_of(" \t\r\n\v\f");
    return first != std::string::npos && std::string_view("=+-@").find(folded[first]) != std::string_view::npos;
}

std::string text_for_csv(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    if (std::holds_alternative<Notes>(cell) || std::holds_alternative<base::Date>(cell)) return cell_in_words(cell);
    std::string list;
    if (const auto* items = std::get_if<Items>(&cell))
        for (const std::string& text : items->texts) list += (list.empty() ? "" : "; ") + text;
    return list;
}

std::string field_of(const Cell& cell) {
    if (const auto* number = std::get_if<std::int64_t>(&cell)) return std::to_string(*number);
    if (const auto* share = std::get_if<Share>(&cell)) return fmt::format("{:.4f}", share->value);
    if (const auto* duration = std::get_if<Duration>(&cell)) return std::to_string(duration->seconds);
    std::string safe = text_for_csv(cell);
    if (may_be_formula(safe)) safe.insert(0, "'");
    if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
    std::string quoted = "\"";
    for (const char c : safe) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + "\"";
}

}  // namespace

std::string render_csv(const Document& document) {
    std::string out;
    for (const DocumentBlock& block : document.blocks) {
        const auto* table = std::get_if<Table>(&block);
        if (table == nullptr) continue;
        for (std::size_t column = 0; column < table->columns.size(); ++column)
            out += (column > 0 ? "," : "") + field_of(Cell(table->columns[column].title));
        out += "\r\n";
        std::vector<std::string> fields(table->columns.size());  // of the row, and before that of the row above
        for (const auto& row : table->rows) {
            for (std::size_t column = 0; column < row.size(); ++column) {
                if (!std::holds_alternative<FromAbove>(row[column])) fields[column] = field_of(row[column]);
                out += (column > 0 ? "," : "") + fields[column];
            }
            out += "\r\n";
        }
    }
    return out;
}

}  // namespace report
