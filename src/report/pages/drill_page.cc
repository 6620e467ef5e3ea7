#include "report/pages/drill_page.h"

#include <fmt/format.h>

#include "hands/cheapest_way.h"
#include "report/words/hands_line.h"
#include "report/words/json.h"
#include "report/words/way_label.h"
#include "report/words/words.h"

namespace report {

namespace {

std::string name_of(int midi, int fifths) { return music::to_string(music::spell_midi(midi, fifths)); }

hands::CheapestWay way_of(const answers::DrillAnswer& page, const hands::Passage& passage) {
    return hands::find_cheapest_way(hands::line_of(passage), *page.instrument, page.instrument->motion_costs);
}

std::string names_alone(const hands::Passage& passage, int fifths) {
    std::string line;
    for (const auto& bar : passage.bars) {
        std::string names;
        for (const int midi : bar) names += (names.empty() ? "" : " ") + name_of(midi, fifths);
        line += (line.empty() ? "" : " | ") + names;
    }
    return line;
}

void describe_passage(const answers::DrillAnswer& page, const hands::Passage& passage, Document& document) {
    document.blocks.emplace_back(Heading{passage.kind == hands::Passage::Kind::around ? answers::title_of(page, passage)
                                                                                      : std::string("Up and down")});
    if (page.instrument == nullptr) {
        document.blocks.emplace_back(Paragraph{names_alone(passage, page.fifths)});
        return;
    }
    describe_hands_line(way_of(page, passage), *page.instrument, page.fifths, document);
}

}  // namespace

Document describe(const answers::DrillAnswer& page) {
    Document document;
    document.blocks.emplace_back(
        Title{(page.fresh.empty() ? "Your notes" : note_list(page.fresh, page.fifths) + " among your notes") +
              (page.instrument ? ", on " + page.instrument->title : std::string())});
    Particulars lines;
    if (!page.have.empty()) lines.lines.emplace_back("you have", note_list(page.have, page.fifths));
    if (page.instrument) {
        for (const int midi : page.fresh.midi_numbers())
            lines.lines.emplace_back("new: " + name_of(midi, page.fifths),
                                     place_in_words(*page.instrument->note(midi)));
    } else if (!page.fresh.empty()) {
        lines.lines.emplace_back("new", note_list(page.fresh, page.fifths));
    }
    document.blocks.emplace_back(std::move(lines));
    for (const hands::Passage& passage : page.drill) describe_passage(page, passage, document);
    if (page.instrument) {
        if (const std::string key = label_key(*page.instrument); !key.empty())
            document.blocks.emplace_back(Paragraph{key + "."});
        document.blocks.emplace_back(Paragraph{"Slowly and evenly, a few times; then a tune that has the note."});
    }
    document.blocks.emplace_back(Heading{"As ABC"});
    document.blocks.emplace_back(Music{page.abc});
    return document;
}

std::string as_json(const answers::DrillAnswer& page) {
    Json json;
    json["version"] = 1;
    json["have"] = note_names(page.have, page.fifths);
    json["new"] = note_names(page.fresh, page.fifths);
    json["instrument"] = page.instrument ? Json(page.instrument->id) : Json(nullptr);
    json["passages"] = Json::array();
    for (const hands::Passage& passage : page.drill) {
        Json bars = Json::array();
        for (const auto& bar : passage.bars) bars.push_back(bar);
        Json fingerings = nullptr;
        if (page.instrument) {
            fingerings = Json::array();
            for (const hands::Stroke& stroke : way_of(page, passage).strokes)
                fingerings.push_back(stroke.way ? Json(stroke.way->fingering) : Json(nullptr));
        }
        json["passages"].push_back(
            {{"kind", hands::passage_token(passage.kind)},
             {"about", passage.kind == hands::Passage::Kind::around ? Json(passage.about) : Json(nullptr)},
             {"bars", std::move(bars)},
             {"fingerings", std::move(fingerings)}});
    }
    json["abc"] = page.abc;
    return finish(json);
}

}  // namespace report
