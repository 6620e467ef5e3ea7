#include "report/pages/fit_page.h"

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

Table table_of(const answers::FitAnswer& page, const char* folded, const char* moved) {
    Table table{{{"id"}, {"instrument", Fit::cut, 20}, {"fit"}, {"share"}, {"hardness 1 to 3"}, {folded}, {moved}}, {}};
    for (const answers::InstrumentFit& row : page.rows)
        table.rows.push_back({Cell(row.instrument->id), Cell(row.instrument->title), Cell(row.now),
                              Cell(Share{share_of(row.now, page.tunes)}), Cell(row.easy), Cell(row.folded),
                              Cell(row.moved)});
    return table;
}

}  // namespace

Document describe(const answers::FitAnswer& page) {
    Document document;
    document.blocks.emplace_back(
        Title{"Of " + counted(page.tunes, "tune", "tunes") + ", how many each instrument can play"});
    document.blocks.emplace_back(table_of(page, "folded", "moved"));
    document.blocks.emplace_back(
        Paragraph{"hardness 1 to 3: with first-year notes alone. folded: with missing notes an octave up "
                  "or down. moved: in another key, an octave away at most, nothing "
                  "folded. Both count the tunes that fit as they are. gamut tune TUNE --on ID shows one tune."});
    return document;
}

Document tabulate(const answers::FitAnswer& page) {
    Document document;
    document.blocks.emplace_back(table_of(page, "folded", "moved"));
    return document;
}

std::string as_json(const answers::FitAnswer& page) {
    Json json;
    json["version"] = 1;
    json["tunes"] = page.tunes;
    json["instruments"] = Json::array();
    for (const answers::InstrumentFit& row : page.rows)
        json["instruments"].push_back({{"id", row.instrument->id},
                                       {"fit", row.now},
                                       {"to_grade_3", row.easy},
                                       {"folded", row.folded},
                                       {"moved", row.moved}});
    return finish(json);
}

}  // namespace report
