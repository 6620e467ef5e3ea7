#include "report/pages/beside_page.h"

#include <cmath>
#include <cstdlib>
#include <set>
#include <utility>

#include "report/pages/kin_page.h"
#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/likeness.h"

namespace report {

namespace {

std::string beside_name(const tune::TuneRecord& record) {
    return title_of(record) + " (" + std::to_string(record.own.value) + ", " + key_in_words(record) + ")";
}

// Less than what is called the same tune perhaps.
bool is_another_tune(const answers::BesideAnswer& page) { return page.likeness < tune::kPossibleKin; }

std::string beside_summary(const answers::BesideAnswer& page, std::int64_t same) {
    const std::string alike = likeness_in_words(page.likeness) + " alike";
    if (is_another_tune(page) && same == 0) return "These two have nothing in common (" + alike + ").";
    const std::string bars =
        std::to_string(same) + " of " + counted(static_cast<std::int64_t>(page.rows.size()), "bar", "bars");
    if (is_another_tune(page)) return "These two are hardly one tune (" + alike + "), but share " + bars + ".";
    std::string words = alike + " note for note; " + bars + " the same to the letter";
    if (page.in_other_mode) words += ", the rest mostly the same steps in another mode";
    return words + ".";
}

std::string beside_move(const answers::BesideAnswer& page) {
    if (page.semitones == 0) return "";
    const std::string far =
        std::string(page.semitones > 0 ? "up " : "down ") + counted(std::abs(page.semitones), "semitone", "semitones");
    if (page.is_moved) return "The second is moved " + far + ", to lie as the first does.";
    return "The second lies as the first does when it is moved " + far +
           ", but it cannot be written so; it stands as in its file.";
}

Json beside_side(const std::optional<answers::BarText>& side) {
    if (!side) return nullptr;
    return {{"bar", side->number}, {"abc", side->abc}, {"to", side->to}};
}

Json beside_tune(const tune::TuneRecord& record) {
    return {{"id", record.id.value},
            {"own_id", record.own.value},
            {"title", record.titles.empty() ? Json(nullptr) : Json(record.titles.front())}};
}

}  // namespace

Document describe(const answers::BesideAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{beside_name(page.one) + " beside " + beside_name(page.other)});
    std::int64_t same = 0;
    Table table{{{"bar"},
                 {std::to_string(page.one.own.value), Fit::wrapped, 12},
                 {"bar"},
                 {std::to_string(page.other.own.value), Fit::wrapped, 12}},
                {}};
    const auto number = [](const std::optional<answers::BarText>& side) {
        if (!side) return Cell(std::string("-"));
        if (side->to == side->number) return Cell(std::int64_t{side->number});
        return Cell(std::to_string(side->number) + "-" + std::to_string(side->to));
    };
    for (const answers::BarRow& row : page.rows) same += row.is_same ? 1 : 0;
    if (is_another_tune(page) && same == 0) {
        document.blocks.emplace_back(Paragraph{beside_summary(page, same)});
        return document;
    }
    std::set<std::pair<int, int>> shown;  // a part written out twice on one side stands beside the same bars again
    for (const answers::BarRow& row : page.rows) {
        if (row.is_same) continue;
        if (row.one && row.other && !shown.insert({row.one->number, row.other->number}).second) continue;
        table.rows.push_back({number(row.one), Cell(row.one ? row.one->abc : "-"), number(row.other),
                              Cell(row.other ? row.other->abc : "-")});
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{beside_summary(page, same)});
    if (const std::string move = beside_move(page); !move.empty()) document.blocks.emplace_back(Paragraph{move});
    return document;
}

std::string as_json(const answers::BesideAnswer& page) {
    Json json;
    json["version"] = 1;
    json["one"] = beside_tune(page.one);
    json["other"] = beside_tune(page.other);
    json["likeness"] = std::round(page.likeness * 1000) / 1000;
    json["semitones"] = page.semitones;
    json["moved"] = page.is_moved;
    json["other_mode"] = page.in_other_mode;
    json["bars"] = Json::array();
    for (const answers::BarRow& row : page.rows)
        json["bars"].push_back(
            {{"one", beside_side(row.one)}, {"other", beside_side(row.other)}, {"same", row.is_same}});
    return finish(json);
}

}  // namespace report
