#include "report/csv.h"

#include <fmt/format.h>

namespace report {

namespace {

std::string field_of(const Cell& cell) {
    if (const auto* number = std::get_if<std::int64_t>(&cell)) return std::to_string(*number);
    if (const auto* share = std::get_if<Share>(&cell)) return fmt::format("{:.4f}", share->value);
    const auto* text = std::get_if<std::string>(&cell);
    if (text == nullptr) return {};
    std::string safe = *text;
    if (!safe.empty() && std::string_view("=+-@\t\r").find(safe[0]) != std::string_view::npos) safe.insert(0, "'");
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
        for (const auto& row : table->rows) {
            for (std::size_t column = 0; column < row.size(); ++column)
                out += (column > 0 ? "," : "") + field_of(row[column]);
            out += "\r\n";
        }
    }
    return out;
}

}  // namespace report
