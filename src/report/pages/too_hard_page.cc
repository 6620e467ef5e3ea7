// Tested by the golden cases of tests/golden/tune.
#include "report/pages/too_hard_page.h"

#include <fmt/format.h>

#include "report/words/json.h"
#include "report/words/load_words.h"
#include "report/words/words.h"

namespace report {

namespace {

using answers::CanPlay;

// `Kettle Lid (12)`
std::string named_with_id(const tune::TuneRecord& record) {
    return fmt::format("{} ({})", title_of(record), record.id.value);
}

std::string verdict_in_words(const answers::TooHardAnswer& page) {
    const std::string beside = page.hardest ? named_with_id(page.hardest->record) : "";
    switch (page.can_play) {
        case CanPlay::known:
            return page.player + " knows it.";
        case CanPlay::yes:
            return fmt::format("Yes: no note is new to {}, and it is no harder than {}, the hardest of {}.",
                               page.player, beside, counted(page.known, "known tune", "known tunes"));
        case CanPlay::out_of_reach:
            return fmt::format("No: {} has no {}.", page.instrument, note_list(page.not_on_instrument));
        case CanPlay::unmeasured:
            return fmt::format("All its notes are there; {} knows no tune yet that it could be set beside.",
                               page.player);
        case CanPlay::not_yet:
            break;
    }
    const music::NoteSet& fresh = page.to_learn.fresh;
    const bool is_harder = page.hardest && page.tune.points > page.hardest->points;
    std::string words = "Not yet: ";
    if (!fresh.empty()) words += fresh_in_words(page.to_learn);
    if (is_harder)
        words += fmt::format("{}it is harder than {}, the hardest of {}", fresh.empty() ? "" : ", and ", beside,
                             counted(page.known, "known tune", "known tunes"));
    return words + ".";
}

std::string or_dash(int number) { return number == 0 ? "-" : std::to_string(number); }

Table side_by_side(const answers::TooHardAnswer& page) {
    Table table{{{""}, {title_of(page.tune.record), Fit::wrapped, 10}}, {}};
    if (page.hardest) table.columns.push_back({title_of(page.hardest->record), Fit::wrapped, 10});
    const auto row = [&](const char* what, const std::string& here, const std::string& there) {
        auto& cells = table.rows.emplace_back();
        cells.emplace_back(what);
        cells.emplace_back(here);
        if (page.hardest) cells.emplace_back(there);
    };
    const answers::Weighed none;
    const answers::Weighed& other = page.hardest ? *page.hardest : none;
    row("notes that are new", note_list(page.to_learn.fresh), "-");
    row("different bars", std::to_string(page.tune.load.different_bars), std::to_string(other.load.different_bars));
    row("of them to learn", or_dash(page.to_learn.bars_to_learn), "-");
    row("semitones from lowest to highest", std::to_string(page.tune.range), std::to_string(other.range));
    row("leaps of a sixth or more", or_dash(page.tune.load.leaps), or_dash(other.load.leaps));
    row("notes a second, easily", load_in_words(page.tune.load, repertoire::LoadPart::pace),
        load_in_words(other.load, repertoire::LoadPart::pace));
    row("points", in_tenths(page.tune.points), in_tenths(other.points));
    return table;
}

Json weighed_json(const answers::Weighed& tune) {
    return {{"id", tune.record.id.value},
            {"title", tune.record.titles.empty() ? Json(nullptr) : Json(tune.record.titles.front())},
            {"load", load_json(tune.load)},
            {"range", tune.range},
            {"points", tune.points / 10.0}};
}

}  // namespace

Document describe(const answers::TooHardAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{fmt::format("{} for {}", named_with_id(page.tune.record), page.player)});
    document.blocks.emplace_back(Paragraph{verdict_in_words(page)});
    document.blocks.emplace_back(side_by_side(page));
    document.blocks.emplace_back(
        Paragraph{"Points as gamut next counts them, for somebody with these notes who knows no tune yet: what makes a "
                  "tune hard by common practice, no measure of a player."});
    if (page.can_play == CanPlay::not_yet)
        document.blocks.emplace_back(Hint{fmt::format("gamut next {} --towards {} makes a ladder of smaller steps.",
                                                      page.player, page.tune.record.id.value)});
    return document;
}

std::string as_json(const answers::TooHardAnswer& page) {
    Json json;
    json["version"] = 1;
    json["player"] = page.player;
    json["can_play"] = answers::can_play_token(page.can_play);
    json["tune"] = weighed_json(page.tune);
    json["to_learn"] = load_json(page.to_learn);
    json["hardest"] = page.hardest ? weighed_json(*page.hardest) : Json(nullptr);
    json["known"] = page.known;
    json["not_on_instrument"] = note_names(page.not_on_instrument);
    return finish(json);
}

}  // namespace report
