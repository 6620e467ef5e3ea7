#include "report/pages/kin_page.h"

#include <cmath>
#include <cstdio>
#include <string_view>

#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/likeness.h"

namespace report {

namespace {

std::string place_of(const tune::TuneRecord& record) { return record.file + ":" + std::to_string(record.line); }

Json pair_json(const tune::TuneRecord& one, const tune::TuneRecord& other) {
    const auto side = [](const tune::TuneRecord& record) {
        return Json{{"id", record.id.value},
                    {"own_id", record.own.value},
                    {"title", record.titles.empty() ? Json(nullptr) : Json(record.titles.front())},
                    {"file", record.file},
                    {"line", record.line}};
    };
    return {{"one", side(one)}, {"other", side(other)}};
}

std::string_view kin_word(double likeness) {
    return likeness >= tune::kProbableKin ? "probably" : likeness >= tune::kPossibleKin ? "perhaps" : "";
}

// `Probably one tune: 2 pairs. Perhaps: 1. Less alike: 3.`, without what there is none of.
std::string how_many(const answers::KinAnswer& page, const std::string& what, const char* one, const char* many) {
    std::string words;
    const auto add = [&](std::int64_t count, const std::string& word, const std::string& of) {
        if (count == 0) return;
        words += words.empty() ? word + of + ": " + counted(count, one, many) + "."
                               : " " + word + ": " + std::to_string(count) + ".";
    };
    add(page.probable, "Probably", " " + what);
    add(page.possible, "Perhaps", " " + what);
    add(page.matched - page.probable - page.possible, "Less alike", "");
    return words;
}

std::string kin_summary(const answers::KinAnswer& page) {
    const auto shown = static_cast<std::int64_t>(page.pairs.size());
    const std::string cut = shown < page.matched ? " Shown: " + std::to_string(shown) + " (--limit)." : "";
    const std::string below = page.least > 0.4 ? " --least 40 lists what is less alike too." : "";
    const std::string alike = likeness_in_words(page.least);
    if (page.of) {
        const std::string name = title_of(*page.of) + " (" + std::to_string(page.of->own.value) + ")";
        if (page.matched == 0)
            return "No other tune is " + alike + " like " + name + " or more, apart from those you have judged." +
                   below;
        return how_many(page, "the same as " + name, "tune", "tunes") + cut + below;
    }
    if (page.matched == 0)
        return "No two tunes are " + alike + " alike or more, apart from those you have judged." + below;
    return how_many(page, "one tune", "pair", "pairs") + cut + below;
}

}  // namespace

std::string likeness_in_words(double likeness) { return std::to_string(std::lround(100 * likeness)) + " %"; }

std::string kin_in_words(double likeness) {
    const std::string_view word = kin_word(likeness);
    return word.empty() ? likeness_in_words(likeness) : std::string(word) + ", " + likeness_in_words(likeness);
}

Document describe(const answers::KinAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{"Tunes that may be the same", true});
    // A line for each side, so that titles and places have room.
    Table table{{{"one tune", Fit::cut},
                 {"own id"},
                 {"title", Fit::wrapped, 20},
                 {"key", Fit::cut},
                 {"from", Fit::wrapped, 16}},
                {}};
    const auto add = [&](const std::string& alike, const tune::TuneRecord& side) {
        table.rows.push_back(
            {Cell(alike), Cell(side.own.value), Cell(title_of(side)), Cell(key_in_words(side)), Cell(place_of(side))});
    };
    for (const answers::ProbablePair& pair : page.pairs) {
        if (page.of) {
            add(kin_in_words(pair.likeness), pair.other);
            continue;
        }
        add(kin_in_words(pair.likeness), pair.one);
        add("", pair.other);
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{kin_summary(page)});
    if (!page.pairs.empty()) {
        const std::string one = std::to_string(page.pairs.front().one.own.value);
        const std::string other = std::to_string(page.pairs.front().other.own.value);
        const std::string ids = one + " " + other;
        document.blocks.emplace_back(Hint{"gamut same " + ids + " says that two are one tune, gamut same --not " + ids +
                                          " that they are not; gamut tune " + one + " --beside " + other +
                                          " shows where they differ."});
    }
    return document;
}

Document tabulate(const answers::KinAnswer& page) {
    Table table;
    for (const char* title : {"likeness", "one_id", "one_title", "one_file", "one_line", "other_id", "other_title",
                              "other_file", "other_line"})
        table.columns.push_back({title});
    char likeness[16];
    for (const answers::ProbablePair& pair : page.pairs) {
        std::snprintf(likeness, sizeof likeness, "%.3f", pair.likeness);
        auto& row = table.rows.emplace_back();
        row.emplace_back(std::string(likeness));
        for (const tune::TuneRecord* record : {&pair.one, &pair.other}) {
            row.emplace_back(record->own.value);
            row.push_back(record->titles.empty() ? Cell() : Cell(record->titles.front()));
            row.emplace_back(record->file);
            row.emplace_back(std::int64_t{record->line});
        }
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::KinAnswer& page) {
    Json json;
    json["version"] = 1;
    json["pairs"] = Json::array();
    for (const answers::ProbablePair& pair : page.pairs) {
        Json row = pair_json(pair.one, pair.other);
        row["likeness"] = std::round(pair.likeness * 1000) / 1000;
        row["word"] = kin_word(pair.likeness).empty() ? Json(nullptr) : Json(kin_word(pair.likeness));
        json["pairs"].push_back(std::move(row));
    }
    json["matched"] = page.matched;
    json["probable"] = page.probable;
    json["shown"] = page.pairs.size();
    json["possible"] = page.possible;
    return finish(json);
}

Document describe(const VerdictPage& page) {
    const auto& [one, other, is_same] = page;
    const auto named = [](const tune::TuneRecord& record) {
        return title_of(record) + " (" + std::to_string(record.own.value) + ")";
    };
    const std::string both = named(one) + " and " + named(other);
    const bool are_one = one.id == other.id;
    Document document;
    if (are_one && is_same)
        document.blocks.emplace_back(Paragraph{both + " are one tune, number " + std::to_string(one.id.value) +
                                               ", in " + counted(one.settings, "version", "versions") + "."});
    else if (!are_one && !is_same)
        document.blocks.emplace_back(Paragraph{both + " are two tunes."});
    else
        document.blocks.emplace_back(Paragraph{
            both +
            " are kept as one tune from now on, but stay apart as long as tunes they are one with are said not "
            "to be the same; gamut tune " +
            std::to_string(one.id.value) + " tells which."});
    return document;
}

std::string as_json(const VerdictPage& page) {
    const auto& [one, other, is_same] = page;
    Json json;
    json["version"] = 1;
    json.update(pair_json(one, other));
    json["said_same"] = is_same;
    json["are_one"] = one.id == other.id;
    return finish(json);
}

}  // namespace report
