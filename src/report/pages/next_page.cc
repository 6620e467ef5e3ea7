// Tested by the golden cases of tests/golden/next.
#include "report/pages/next_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "repertoire/tune_shape.h"
#include "report/words/load_words.h"
#include "report/words/way_label.h"
#include "report/words/words.h"

namespace report {

namespace {

using repertoire::LoadPart;

std::string named(const tune::TuneRecord& record) { return fmt::format("{} ({})", title_of(record), record.id.value); }

// Fewer bars as written make a tune short. Source: common practice, no source: a part has eight.

// Tunes held back that are named. Source: house choice.
constexpr std::size_t kHeldBackNamed = 3;

// `a polka in G major`, `a reel by its pattern, in G major`; without what is not known.
std::string kind_of(const tune::TuneRecord& record) {
    std::string words = record.rhythm ? with_article(record.rhythm->value) : "a tune of unknown rhythm";
    if (is_rhythm_guessed(record)) words += " by its pattern" + std::string(record.key ? "," : "");
    if (record.key) words += " in " + music::to_string(*record.key);
    return words;
}

// `your last three were jigs`, `again a jig, as your last tune was`; empty where that says nothing.
std::string last_in_words(const answers::NextAnswer& page, const answers::NextTune& tune) {
    const auto& last = page.last_rhythms;
    if (last.empty() || last.front().empty()) return "";
    const auto other =
        std::find_if(last.begin(), last.end(), [&](const auto& rhythm) { return rhythm != last.front(); });
    const auto running = other - last.begin();
    const std::string which = running == 1   ? "your last tune was"
                              : running == 2 ? "your last two were"
                                             : "your last three were";
    if (tune.pick.load.same_rhythm > 0) return "again " + with_article(last.front()) + ", as " + which;
    return which + " " + (running == 1 ? with_article(last.front()) : rhythm_in_plural(last.front()));
}

// What the first one says of the last tunes need not be said again.
std::string why_learn(const answers::NextAnswer& page, const answers::NextTune& tune) {
    std::string words = fresh_in_words(tune.pick.load) + "; " + bars_known_in_words(tune.pick.load);
    const bool says_last = tune.pick.load.same_rhythm > 0 || &tune == &page.picks.front();
    if (const std::string last = says_last ? last_in_words(page, tune) : ""; !last.empty()) words += "; " + last;
    if (const int bars = tune.record.bars; bars > 0 && bars < repertoire::kBarsOfPart)
        words += "; short: " + counted(bars, "bar", "bars") + " in all";
    if (tune.pick.is_wished) words += "; you wish for it";
    if (tune.pick.asked > 0) words += "; it was asked for";
    return words;
}

std::string capitalised(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
}

// `opens 19 tunes, among them Lamp and Stove`, `opens 2 tunes: Lamp and Stove`.
std::string opens_in_words(const answers::NextNote& note) {
    std::string titles;
    for (const std::string& title : note.examples) titles += (titles.empty() ? "" : " and ") + title;
    const bool are_all = static_cast<std::int64_t>(note.examples.size()) == note.opens;
    return (note.add.size() == 1 ? "opens " : "open ") + counted(note.opens, "tune", "tunes") +
           (are_all ? ": " : ", among them ") + titles;
}

bool is_too_much(const answers::NextAnswer& page) { return page.note && page.note->add.size() > kMostNotesAtOnce; }

void describe_note(const answers::NextAnswer& page, Document& document) {
    document.blocks.emplace_back(Paragraph{fmt::format("No tune that is new to you lies within your notes{}.",
                                                       page.left_out > 0 ? " and the filters" : "")});
    if (page.no_such_rhythm) {
        document.blocks.emplace_back(
            Paragraph{fmt::format("No tune of the library is {}.", with_article(*page.no_such_rhythm))});
        return;
    }
    if (!page.note) {
        document.blocks.emplace_back(Paragraph{"Nor does any note open one."});
        return;
    }
    if (is_too_much(page)) {
        std::string words = fmt::format("No one or two notes open any. {} together {}, which is much to learn at once.",
                                        note_list(page.note->add), opens_in_words(*page.note));
        if (!page.picks.empty())
            words += fmt::format(" --towards {} makes a ladder of smaller steps to {}.",
                                 page.picks.front().record.id.value, title_of(page.picks.front().record));
        document.blocks.emplace_back(Paragraph{std::move(words)});
        return;
    }
    document.blocks.emplace_back(
        Heading{fmt::format("Learn {}, which {}", note_list(page.note->add), opens_in_words(*page.note))});
    if (page.instrument != nullptr) {
        Particulars where;
        for (const int midi : page.note->add.midi_numbers())
            if (const instruments::InstrumentNote* note = page.instrument->note(midi))
                where.lines.emplace_back(music::to_string(music::spell_midi(midi, 0)), place_in_words(*note));
        document.blocks.emplace_back(std::move(where));
    }
    if (page.note->add.size() > 1)
        document.blocks.emplace_back(Paragraph{"No single note opens anything; these do together."});
}

Table loads_of(const answers::NextAnswer& page) {
    Table table{{{""}}, {}};
    for (const answers::NextTune& tune : page.picks) table.columns.push_back({title_of(tune.record), Fit::wrapped, 10});
    table.columns.push_back({"points each"});
    for (std::size_t at = 0; at < repertoire::kLoadParts; ++at) {
        const auto part = static_cast<LoadPart>(at);
        const bool is_told = std::any_of(page.picks.begin(), page.picks.end(), [&](const answers::NextTune& tune) {
            return part == LoadPart::bars || tune.pick.load.tenths_of(part) != 0;
        });
        if (!is_told) continue;
        auto& row = table.rows.emplace_back();
        row.emplace_back(part_in_words(part));
        for (const answers::NextTune& tune : page.picks) row.emplace_back(load_in_words(tune.pick.load, part));
        row.emplace_back(std::to_string(page.goal.weights[part]));
    }
    const auto take_away = [&](const char* label, int weight, auto number_of) {
        if (std::all_of(page.picks.begin(), page.picks.end(),
                        [&](const answers::NextTune& tune) { return number_of(tune) == 0; }))
            return;
        auto& row = table.rows.emplace_back();
        row.emplace_back(label);
        for (const answers::NextTune& tune : page.picks)
            row.emplace_back(number_of(tune) == 0 ? "-" : std::to_string(number_of(tune)));
        row.emplace_back(std::to_string(-weight));
    };
    take_away("wished for", page.goal.weights.wish,
              [](const answers::NextTune& tune) { return tune.pick.is_wished ? 1 : 0; });
    take_away("times asked for", page.goal.weights.asked,
              [](const answers::NextTune& tune) { return tune.pick.asked; });
    auto& sum = table.rows.emplace_back();
    sum.emplace_back("points");
    for (const answers::NextTune& tune : page.picks) sum.emplace_back(in_tenths(tune.pick.points));
    sum.emplace_back("");
    return table;
}

std::string others_in_words(const answers::NextAnswer& page) {
    std::string words = "Two others";
    if (page.picks.size() == 2) words = "Another";
    return words;
}

std::string state_in_words(std::optional<tune::TuneState> state) {
    if (!state) return "which is proposed too";
    switch (*state) {
        case tune::TuneState::learning:
            return "which you are learning";
        case tune::TuneState::known:
            return "which you know";
        case tune::TuneState::rusty:
            return "which you once knew";
    }
    return "";
}

void describe_held_back(const answers::NextAnswer& page, Document& document) {
    for (std::size_t at = 0; at < std::min(page.held_back.size(), kHeldBackNamed); ++at) {
        const answers::HeldBackTune& held = page.held_back[at];
        document.blocks.emplace_back(Paragraph{
            fmt::format("Held back: {}, probably {}, {}; gamut same {} {} says so, with --not that they are two.",
                        named(held.record), named(held.twin), state_in_words(held.state), held.record.id.value,
                        held.twin.id.value)});
    }
    if (page.held_back.size() > kHeldBackNamed)
        document.blocks.emplace_back(Paragraph{fmt::format("Held back in the same way: {} more; --json names all.",
                                                           page.held_back.size() - kHeldBackNamed)});
}

void describe_surroundings(const answers::NextAnswer& page, Document& document) {
    if (!page.at_work.empty()) {
        std::string titles;
        for (const tune::TuneRecord& record : page.at_work) titles += (titles.empty() ? "" : "; ") + title_of(record);
        document.blocks.emplace_back(Paragraph{ended("At work on: " + titles)});
    }
    for (const answers::FarWish& wish : page.far_wishes) {
        if (std::any_of(page.picks.begin(), page.picks.end(),
                        [&](const answers::NextTune& tune) { return tune.record.id == wish.record.id; }))
            continue;
        document.blocks.emplace_back(
            Hint{fmt::format("Your wish {} lacks {}; --towards {} makes a ladder.", named(wish.record),
                             note_list(wish.missing), wish.record.id.value)});
    }
    if (page.note && !page.is_note_first)
        document.blocks.emplace_back(Paragraph{ended(fmt::format(
            "{} within your notes. The {} to learn after them: {}, which {}",
            counted(page.within, "tune is left", "tunes are left"), page.note->add.size() == 1 ? "note" : "notes",
            note_list(page.note->add), opens_in_words(*page.note)))});
    if (page.unwanted > 0)
        document.blocks.emplace_back(
            Paragraph{fmt::format("Left out: {} not wanted.", counted(page.unwanted, "tune", "tunes"))});
}

}  // namespace

Document describe(const answers::NextAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{"Next for " + page.player});
    if (page.is_note_first) describe_note(page, document);
    for (std::size_t at = 0; at < page.picks.size(); ++at) {
        const answers::NextTune& tune = page.picks[at];
        if (at == 0)
            document.blocks.emplace_back(Heading{fmt::format("{} {}, {}",
                                                             !page.is_note_first ? "Learn"
                                                             : is_too_much(page) ? "Some day"
                                                                                 : "Then",
                                                             named(tune.record), kind_of(tune.record))});
        if (at == 1) document.blocks.emplace_back(Heading{others_in_words(page)});
        document.blocks.emplace_back(Paragraph{
            at == 0 ? capitalised(why_learn(page, tune)) + "."
                    : fmt::format("{}, {}: {}.", named(tune.record), kind_of(tune.record), why_learn(page, tune))});
    }
    if (!page.picks.empty()) {
        document.blocks.emplace_back(Heading{"What each takes"});
        document.blocks.emplace_back(loads_of(page));
        document.blocks.emplace_back(Paragraph{
            "Points are what --weigh says and no more: a rule of thumb to put tunes in an order, not a measure "
            "of a tune or of a player."});
    }
    describe_held_back(page, document);
    if (page.scraps > 0) document.blocks.emplace_back(Paragraph{scraps_in_words(page.scraps)});
    describe_surroundings(page, document);
    return document;
}

Document tabulate(const answers::NextAnswer& page) {
    Table table;
    for (const char* title :
         {"place", "id", "title", "rhythm", "key", "notes", "strikes", "bars", "different_bars", "range", "leaps",
          "hand", "pace", "rhythm_running", "wished", "asked", "points", "rhythm_basis"})
        table.columns.push_back({title});
    std::int64_t place = 0;
    for (const answers::NextTune& tune : page.picks) {
        const repertoire::Load& load = tune.pick.load;
        const auto tenths = [](const std::optional<int>& value) { return value ? Cell(in_tenths(*value)) : Cell(); };
        table.rows.push_back(
            {Cell(++place), Cell(tune.record.id.value),
             tune.record.titles.empty() ? Cell() : Cell(tune.record.titles.front()),
             tune.record.rhythm ? Cell(tune.record.rhythm->value) : Cell(),
             tune.record.key ? Cell(music::to_string(*tune.record.key)) : Cell(),
             load.fresh.empty() ? Cell() : Cell(Notes{load.fresh}), Cell(std::int64_t{load.strikes}),
             Cell(std::int64_t{load.bars_to_learn}), Cell(std::int64_t{load.different_bars}),
             Cell(std::int64_t{load.beyond}), Cell(std::int64_t{load.leaps}), tenths(load.hand), tenths(load.pace),
             Cell(std::int64_t{load.same_rhythm}), Cell(std::int64_t{tune.pick.is_wished ? 1 : 0}),
             Cell(std::int64_t{tune.pick.asked}), Cell(in_tenths(tune.pick.points)),
             tune.record.rhythm ? Cell(std::string(tune::basis_token(tune.record.rhythm->basis))) : Cell()});
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::NextAnswer& page) {
    Json json;
    json["version"] = 1;
    json["player"] = page.player;
    json["instrument"] = page.instrument ? Json(page.instrument->id) : Json(nullptr);
    json["have"] = note_names(page.have);
    json["note_first"] = page.is_note_first;
    json["note"] = nullptr;
    if (page.note) {
        Json places = nullptr;
        if (page.instrument != nullptr) {
            places = Json::array();
            for (const int midi : page.note->add.midi_numbers())
                if (const instruments::InstrumentNote* note = page.instrument->note(midi))
                    places.push_back(place_in_words(*note));
        }
        json["note"] = {
            {"add", note_names(page.note->add)}, {"opens", page.note->opens}, {"places", std::move(places)}};
        const bool needs_ladder = page.is_note_first && is_too_much(page) && !page.picks.empty();
        json["note"]["ladder_towards"] = needs_ladder ? Json(page.picks.front().record.id.value) : Json(nullptr);
    }
    json["tunes"] = Json::array();
    for (const answers::NextTune& tune : page.picks) {
        Json one;
        one["id"] = tune.record.id.value;
        one["title"] = tune.record.titles.empty() ? Json(nullptr) : Json(tune.record.titles.front());
        one["rhythm"] = tune.record.rhythm ? Json(tune.record.rhythm->value) : Json(nullptr);
        one["rhythm_basis"] = tune.record.rhythm ? Json(tune::basis_token(tune.record.rhythm->basis)) : Json(nullptr);
        one["bars"] = tune.record.bars;
        one["key"] = tune.record.key ? Json(music::to_string(*tune.record.key)) : Json(nullptr);
        one["reason"] = why_learn(page, tune);
        one["load"] = load_json(tune.pick.load);
        one["wished"] = tune.pick.is_wished;
        one["asked"] = tune.pick.asked;
        one["points"] = tune.pick.points / 10.0;
        json["tunes"].push_back(std::move(one));
    }
    Json weights;
    for (std::size_t at = 0; at < repertoire::kLoadParts; ++at)
        weights[std::string(repertoire::to_string(static_cast<LoadPart>(at)))] = page.goal.weights.of[at];
    weights["wish"] = page.goal.weights.wish;
    weights["asked"] = page.goal.weights.asked;
    json["weights"] = std::move(weights);
    json["at_work"] = Json::array();
    for (const tune::TuneRecord& record : page.at_work) json["at_work"].push_back(record.id.value);
    json["held_back"] = Json::array();
    for (const answers::HeldBackTune& held : page.held_back)
        json["held_back"].push_back({{"id", held.record.id.value},
                                     {"probably", held.twin.id.value},
                                     {"state", held.state ? Json(tune::state_token(*held.state)) : Json(nullptr)}});
    json["wishes_beyond"] = Json::array();
    for (const answers::FarWish& wish : page.far_wishes)
        json["wishes_beyond"].push_back({{"id", wish.record.id.value}, {"missing", note_names(wish.missing)}});
    json["within"] = page.within;
    json["unwanted"] = page.unwanted;
    json["left_out"] = page.left_out;
    json["scraps"] = page.scraps;
    return finish(json);
}

}  // namespace report
