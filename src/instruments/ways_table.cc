#include "instruments/ways_table.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "music/pitch.h"

namespace instruments {

namespace {

constexpr std::array<std::string_view, 9> kColumns{"note",      "row",   "position", "direction", "technique",
                                                   "fingering", "grade", "reason",   "source"};

std::string note_name(int midi) { return music::to_string(music::spell_midi(midi, 1)); }

std::vector<std::string> read_columns(const toml::table& file) {
    const toml::node* node = file.get("columns");
    if (node == nullptr)
        misread(file.get("ways")->source(), "ways needs columns, which say what stands where in a line");
    std::vector<std::string> columns = texts_of(*node, "columns");
    for (std::size_t at = 0; at < columns.size(); ++at)
        if (std::find(kColumns.begin(), kColumns.end(), columns[at]) == kColumns.end())
            misread(node->as_array()->get(at)->source(),
                    "\"" + columns[at] + "\" is no column; there are " + listed(kColumns));
    if (std::find(columns.begin(), columns.end(), "note") == columns.end())
        misread(node->source(), "columns lacks \"note\"");
    return columns;
}

// A text of its own, or a word of the table `words` where the file has one.
std::string said(const toml::node& node, std::string_view what, const toml::table* words, std::string_view table) {
    std::string text = text_of(node, what);
    if (words == nullptr) return text;
    const toml::node* meant = words->get(text);
    if (meant == nullptr) misread(node.source(), "\"" + text + "\" is none of the " + std::string(table));
    return text_of(*meant, what);
}

constexpr int kHighestPosition = 999;  // Source: house choice, beyond any button or fret

std::string position_of(const toml::node& node) {
    if (node.is_integer()) return std::to_string(number_of(node, "position", 0, kHighestPosition));
    return text_of(node, "position");
}

Direction direction_of(const toml::node& node) {
    const std::string token = text_of(node, "direction");
    const auto direction = parse_direction(token);
    if (!direction) misread(node.source(), "\"" + token + "\" is no direction: write press, draw, blow or none");
    return *direction;
}

// `{row} string {position}` with the words of a way; blanks that nothing stands between are left out.
std::string fill(std::string_view pattern, const Way& way, const toml::source_region& where) {
    const std::string direction =
        way.direction == Direction::none ? std::string() : std::string(direction_token(way.direction));
    std::string filled;
    while (!pattern.empty()) {
        const std::size_t open = pattern.find('{');
        filled += pattern.substr(0, open);
        if (open == std::string_view::npos) break;
        const std::size_t close = pattern.find('}', open);
        if (close == std::string_view::npos) misread(where, "fingering has a { without its }");
        const std::string_view word = pattern.substr(open + 1, close - open - 1);
        if (word != "row" && word != "position" && word != "direction" && word != "technique")
            misread(where,
                    "fingering takes {row}, {position}, {direction} and {technique}, not {" + std::string(word) + "}");
        filled += word == "row"         ? way.row
                  : word == "position"  ? way.position
                  : word == "direction" ? direction
                                        : way.technique;
        pattern.remove_prefix(close + 1);
    }
    if (filled.size() > kMostTextBytes)
        misread(where, "fingering must be no longer than " + std::to_string(kMostTextBytes) + " bytes when filled in");
    std::string tidy;
    for (const char c : filled)
        if (c != ' ' || (!tidy.empty() && tidy.back() != ' ')) tidy += c;
    while (!tidy.empty() && tidy.back() == ' ') tidy.pop_back();
    return tidy;
}

// What the file says once for all its ways.
struct Defaults {
    std::optional<std::string> technique;
    std::string fingering = "{row} {position} {direction}";
    std::optional<int> grade;
    std::string source;
    const toml::table* reasons = nullptr;
    const toml::table* sources = nullptr;
    toml::source_region fingering_where;
};

void read_cell(const std::string& column, const toml::node& cell, const Defaults& defaults,
               const std::vector<std::string>& rows, WrittenWay& line) {
    Way& way = line.way;
    if (column == "note") line.midi = note_of(cell);
    if (column == "position") way.position = position_of(cell);
    if (column == "direction") way.direction = direction_of(cell);
    if (column == "technique") way.technique = text_of(cell, "technique");
    if (column == "fingering") way.fingering = text_of(cell, "fingering");
    if (column == "grade") way.grade = number_of(cell, "grade", kEasiestGrade, kHardestGrade);
    if (column == "reason") way.reason = said(cell, "reason", defaults.reasons, "reasons");
    if (column == "source") way.source = said(cell, "source", defaults.sources, "sources");
    if (column != "row") return;
    way.row = text_of(cell, "row");
    if (!rows.empty() && std::find(rows.begin(), rows.end(), way.row) == rows.end())
        misread(cell.source(), "\"" + way.row + "\" is none of the rows");
}

// `""` stands for what holds without the column. Every way has a note and a grade.
bool is_left_out(const std::string& column, const toml::node& cell) {
    return column != "note" && column != "grade" && cell.value_exact<std::string_view>() == "";
}

WrittenWay read_line(const toml::node& node, const std::vector<std::string>& columns, const Defaults& defaults,
                     const std::vector<std::string>& rows) {
    const toml::array* cells = node.as_array();
    if (cells == nullptr || cells->size() != columns.size())
        misread(node.source(),
                "a line of ways must have " + std::to_string(columns.size()) + " values in [ ], one a column");
    WrittenWay line;
    line.where = node.source();
    line.way.source = defaults.source;
    if (defaults.grade) line.way.grade = *defaults.grade;
    for (std::size_t at = 0; at < columns.size(); ++at)
        if (!is_left_out(columns[at], *cells->get(at))) read_cell(columns[at], *cells->get(at), defaults, rows, line);
    Way& way = line.way;
    if (way.technique.empty() && defaults.technique) way.technique = *defaults.technique;
    if (way.technique.empty() && way.direction != Direction::none) way.technique = direction_token(way.direction);
    if (way.technique.empty()) misread(node.source(), note_name(line.midi) + " has neither technique nor direction");
    if (way.fingering.empty()) way.fingering = fill(defaults.fingering, way, defaults.fingering_where);
    if (way.fingering.empty())
        misread(node.source(), note_name(line.midi) + " has no fingering: neither a row nor a position to name");
    return line;
}

auto identity(const Way& way) { return std::tie(way.row, way.position, way.direction, way.technique, way.fingering); }

void check_twice(const std::vector<WrittenWay>& ways) {
    std::vector<const WrittenWay*> sorted;
    for (const WrittenWay& each : ways) sorted.push_back(&each);
    std::stable_sort(sorted.begin(), sorted.end(), [](const WrittenWay* a, const WrittenWay* b) {
        return std::tuple_cat(identity(a->way), std::tie(a->midi)) <
               std::tuple_cat(identity(b->way), std::tie(b->midi));
    });
    for (std::size_t at = 1; at < sorted.size(); ++at) {
        const WrittenWay& one = *sorted[at - 1];
        const WrittenWay& two = *sorted[at];
        if (identity(one.way) != identity(two.way)) continue;
        const WrittenWay& later = one.where.begin < two.where.begin ? two : one;
        const WrittenWay& earlier = &later == &one ? two : one;
        if (one.midi == two.midi)
            misread(later.where, note_name(later.midi) + " is made twice in the same way: " + later.way.fingering);
        if (same_place(one.way, two.way))
            misread(later.where, later.way.fingering + " gives " + note_name(later.midi) + " here and " +
                                     note_name(earlier.midi) + " in line " + std::to_string(earlier.where.begin.line));
    }
}

}  // namespace

bool same_place(const Way& a, const Way& b) { return !a.row.empty() && identity(a) == identity(b); }

std::vector<WrittenWay> read_ways(const toml::table& file, const std::vector<std::string>& rows,
                                  const std::string& usual_source) {
    const toml::node* node = file.get("ways");
    if (node == nullptr) return {};
    const toml::array* lines = node->as_array();
    if (lines == nullptr) misread(node->source(), "ways must be a list of lines in [ ]");
    const std::vector<std::string> columns = read_columns(file);
    Defaults defaults;
    defaults.technique = text_at(file, "technique");
    defaults.grade = number_at(file, "grade", kEasiestGrade, kHardestGrade);
    defaults.source = text_at(file, "way_source").value_or(usual_source);
    defaults.reasons = table_at(file, "reasons");
    defaults.sources = table_at(file, "sources");
    if (const auto pattern = text_at(file, "fingering")) {
        defaults.fingering = *pattern;
        defaults.fingering_where = file.get("fingering")->source();
    }
    if (!defaults.grade && std::find(columns.begin(), columns.end(), "grade") == columns.end())
        misread(file.get("columns")->source(), "columns lacks \"grade\", and the file has no grade for all ways");
    std::vector<WrittenWay> ways;
    for (const toml::node& line : *lines) ways.push_back(read_line(line, columns, defaults, rows));
    check_twice(ways);
    return ways;
}

}  // namespace instruments
