// How well the kind of a tune is told from meter and notes alone, on published books whose editions state it.
//
//     rhythm_table                 the tables, as tests/rhythms/README.md holds them
//     rhythm_table --check README  exit 1 when a figure is worse than the one in README
//     rhythm_table --wrong KIND    a line for each tune fitted on that is called KIND and is not, by file and number
//
// The books are looked for in $GAMUT_SHARED, else in `shared` beside the source folder; without them it exits with 77.
#include <algorithm>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "analysis/rhythm_name.h"
#include "labelled.h"
#include "support/books.h"
#include "variation.h"

namespace {

using rhythms::LabelledTune;

struct Answer {
    std::vector<std::string> kinds;  // the likeliest first; empty where none is named

    bool is_first(const std::string& kind) const { return !kinds.empty() && kinds.front() == kind; }
    bool has(const std::string& kind) const { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); }
};

Answer answer_to(const tune::Setting& setting) {
    const analysis::FoundRhythm found = analysis::find_rhythm(setting);
    Answer answer;
    if (found.rhythm) answer.kinds.push_back(found.rhythm->value);
    answer.kinds.insert(answer.kinds.end(), found.possible.begin(), found.possible.end());
    return answer;
}

// Figures of one row, by the names of their columns.
struct Row {
    std::vector<std::string> keys;
    std::vector<double> figures;
};

struct Tally {
    int tunes = 0, first = 0, possible = 0;
    std::size_t named = 0;

    void add(const Answer& answer, const std::string& label) {
        ++tunes;
        first += answer.is_first(label) ? 1 : 0;
        possible += answer.has(label) ? 1 : 0;
        named += answer.kinds.size();
    }
    double kinds_named() const { return tunes == 0 ? 0 : static_cast<double>(named) / tunes; }
};

std::string figure(double value) {
    char text[32];
    std::snprintf(text, sizeof text, value == static_cast<int>(value) ? "%.0f" : "%.2f", value);
    return text;
}

void print(const std::vector<std::string>& columns, const std::vector<Row>& rows) {
    std::string line = "|", rule = "|";
    for (const std::string& column : columns) line += " " + column + " |", rule += "---|";
    std::printf("%s\n%s\n", line.c_str(), rule.c_str());
    for (const Row& row : rows) {
        std::string text = "|";
        for (const std::string& key : row.keys) text += " " + key + " |";
        for (const double value : row.figures) text += " " + figure(value) + " |";
        std::printf("%s\n", text.c_str());
    }
}

std::vector<Row> judged_by_kind(const rhythms::Labelled& labelled) {
    std::map<std::pair<std::string, std::string>, Tally> tallies;  // by where it is from, and by label; "all" too
    for (const LabelledTune& tune : labelled.tunes) {
        const Answer answer = answer_to(tune.setting);
        const std::string of = tune.held_out ? "held out" : "fitted on";
        tallies[{of, tune.label}].add(answer, tune.label);
        tallies[{of, "(all)"}].add(answer, tune.label);
        tallies[{of + ", " + tune.collection, "(all)"}].add(answer, tune.label);
    }
    std::vector<Row> rows;
    for (const auto& [key, tally] : tallies)
        rows.push_back(
            {{key.first, key.second},
             {static_cast<double>(tally.tunes), static_cast<double>(tally.first), static_cast<double>(tally.possible),
              static_cast<double>(tally.tunes - tally.possible), tally.kinds_named()}});
    return rows;
}

std::vector<Row> judged_by_variation(const rhythms::Labelled& labelled) {
    std::vector<Row> rows;
    for (const rhythms::Variation& variation : rhythms::variations()) {
        int tunes = 0, same = 0, possible_before = 0, possible = 0;
        for (const LabelledTune& tune : labelled.tunes) {
            const auto written = variation.write(tune.setting);
            if (!written) continue;
            const Answer before = answer_to(tune.setting);
            const Answer after = answer_to(*written);
            ++tunes;
            same += !before.kinds.empty() && after.is_first(before.kinds.front()) ? 1 : 0;
            possible_before += before.has(tune.label) ? 1 : 0;
            possible += after.has(tune.label) ? 1 : 0;
        }
        rows.push_back({{std::string(variation.name)},
                        {static_cast<double>(tunes), static_cast<double>(same), static_cast<double>(possible_before),
                         static_cast<double>(possible)}});
    }
    return rows;
}

const std::vector<std::string> kByKind{"tunes are",      "label",         "tunes",      "first guess right",
                                       "among possible", "plainly wrong", "kinds named"};
const std::vector<std::string> kByTitle{"titles of tunes with", "tunes", "the same kind"};
const std::vector<std::string> kByVariation{"written another way", "tunes", "same first guess", "label possible before",
                                            "label possible after"};

// The rows of the last table in the file with these columns, by their keys.
std::map<std::vector<std::string>, std::vector<double>> rows_in(const std::string& file, std::size_t keys,
                                                                const std::vector<std::string>& columns) {
    std::map<std::vector<std::string>, std::vector<double>> rows;
    std::ifstream text(file);
    bool is_within = false;
    for (std::string line; std::getline(text, line);) {
        std::vector<std::string> cells;
        std::istringstream parts(line.size() > 1 && line[0] == '|' ? line.substr(1) : "");
        for (std::string cell; std::getline(parts, cell, '|');) {
            const auto first = cell.find_first_not_of(' ');
            cells.push_back(first == std::string::npos ? ""
                                                       : cell.substr(first, cell.find_last_not_of(' ') - first + 1));
        }
        if (cells == columns) is_within = true, rows.clear();
        if (line.empty()) is_within = false;
        if (!is_within || cells.size() != columns.size() || cells == columns || cells[0].starts_with("---")) continue;
        std::vector<double> figures;
        for (std::size_t at = keys; at < cells.size(); ++at) figures.push_back(std::strtod(cells[at].c_str(), nullptr));
        rows[{cells.begin(), cells.begin() + static_cast<std::ptrdiff_t>(keys)}] = figures;
    }
    return rows;
}

constexpr double kRounding = 0.006;  // of a figure printed with two places

// Every row of the file is still there and no worse. `is_better_low`: of each figure.
int count_worse(const std::string& file, const std::vector<std::string>& columns, const std::vector<Row>& rows,
                const std::vector<bool>& is_better_low) {
    const auto due = rows_in(file, rows.front().keys.size(), columns);
    int worse = due.empty() ? 1 : 0;
    if (due.empty()) std::printf("%s holds no table of %s\n", file.c_str(), columns.front().c_str());
    for (const auto& [keys, figures] : due) {
        const auto found =
            std::find_if(rows.begin(), rows.end(), [&, &named = keys](const Row& row) { return row.keys == named; });
        for (std::size_t at = 0; at < figures.size(); ++at) {
            const double now = found == rows.end() ? -1 : found->figures[at];
            const bool is_worse = found == rows.end() ||
                                  (is_better_low[at] ? now > figures[at] + kRounding : now < figures[at] - kRounding);
            if (!is_worse) continue;
            ++worse;
            std::printf("worse: %s, %s: %s is %s and was %s\n", keys.front().c_str(), keys.back().c_str(),
                        columns[keys.size() + at].c_str(), figure(now).c_str(), figure(figures[at]).c_str());
        }
    }
    return worse;
}

}  // namespace

int main(int count, char** words) {
    const auto shared = support::find_shared();
    if (!shared) {
        std::printf("the published books are not there\n");
        return support::kSkipped;
    }
    const rhythms::Labelled labelled = rhythms::read_labelled(*shared);
    if (count == 3 && std::strcmp(words[1], "--wrong") == 0) {
        for (const LabelledTune& tune : labelled.tunes) {
            const Answer answer = answer_to(tune.setting);
            if (tune.held_out || !answer.is_first(words[2]) || tune.label == words[2]) continue;
            std::printf("%s line %u %s: %s%s\n", tune.collection.c_str(), tune.setting.line,
                        tune.setting.number.value_or("-").c_str(), tune.label.c_str(),
                        answer.has(tune.label) ? "" : ", not possible");
        }
        return 0;
    }
    const std::vector<Row> by_kind = judged_by_kind(labelled);
    const std::vector<Row> by_variation = judged_by_variation(labelled);
    const std::vector<Row> by_title{
        {{"R: and a kind"},
         {static_cast<double>(labelled.named_by_title), static_cast<double>(labelled.title_agrees)}}};
    print(kByKind, by_kind);
    std::printf(
        "\nNot judged: %d whose meter is none of their label's, %d of kinds that are known by their name alone.\n\n",
        labelled.left_out_contradicted, labelled.left_out_other);
    print(kByTitle, by_title);
    std::printf("\n");
    print(kByVariation, by_variation);
    if (count < 3 || std::strcmp(words[1], "--check") != 0) return 0;
    const int worse = count_worse(words[2], kByKind, by_kind, {false, false, false, true, true}) +
                      count_worse(words[2], kByTitle, by_title, {false, false}) +
                      count_worse(words[2], kByVariation, by_variation, {false, false, false, false});
    return worse > 0 ? 1 : 0;
}
