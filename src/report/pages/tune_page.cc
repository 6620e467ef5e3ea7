#include "report/pages/tune_page.h"

#include <cmath>

#include "report/pages/handling_json.h"
#include "report/pages/kin_page.h"
#include "report/pages/marks.h"
#include "report/words/json.h"
#include "report/words/structure.h"
#include "report/words/words.h"

namespace report {

namespace {

std::string bars_listed(const std::vector<int>& bars) {
    std::string words;
    for (const int bar : bars) words += (words.empty() ? "" : " ") + std::to_string(bar);
    return words;
}

Table table_of_notes(const answers::TuneAnswer& page, int fifths) {
    Table table{{{"note"}, {"times"}, {"on strong beats"}, {"in bars", Fit::wrapped, 8}}, {}};
    for (const tune::NoteUse& use : page.facts.uses)
        table.rows.push_back({Cell(note_or_dash(use.midi, fifths)), Cell(std::int64_t{use.count}),
                              Cell(std::int64_t{use.strong}), Cell(bars_listed(use.bars))});
    return table;
}

// `G major, then Bb major`
std::string keys_in_turn_in_words(const std::vector<music::Key>& keys) {
    std::string words;
    for (const music::Key& key : keys) words += (words.empty() ? "" : ", then ") + music::to_string(key);
    return words;
}

std::string evidence_in_words(const answers::TuneAnswer& page) {
    std::string words;
    if (page.facts.key)
        for (const std::string& evidence : page.facts.key->evidence) words += (words.empty() ? "" : "; ") + evidence;
    return words;
}

}  // namespace

Document describe(const answers::TuneAnswer& page) {
    const tune::TuneRecord& record = page.record;
    const int fifths = tune::spelling_fifths(record);
    Document document;
    document.blocks.emplace_back(Title{title_of(record) + "  (tune " + std::to_string(record.id.value) + ")"});
    Particulars facts;
    for (std::size_t other = 1; other < record.titles.size(); ++other)
        facts.lines.emplace_back("also called", record.titles[other]);
    facts.lines.emplace_back("from", record.file + ":" + std::to_string(record.line) +
                                         (record.number ? ", X:" + *record.number : "") +
                                         (page.is_gone ? " (the file is gone; what is known of it is kept)" : ""));
    if (!record.tags.empty()) facts.lines.emplace_back("tags", tag_list(record));
    if (record.count) facts.lines.emplace_back("count", std::to_string(*record.count));
    if (record.rhythm)
        facts.lines.emplace_back("kind", rhythm_in_words(record) + ", meter " + record.meter);
    else
        facts.lines.emplace_back("kind", "unknown, meter " + record.meter);
    facts.lines.emplace_back("key stated", stated_key_in_words(record));
    if (record.key && record.key_basis == tune::Basis::said) {
        facts.lines.emplace_back("key you said", music::to_string(*record.key));
        const std::string by_notes = keys_in_words(record.key_candidates);
        facts.lines.emplace_back("key by its notes", by_notes.empty() ? "-" : by_notes);
    } else {
        facts.lines.emplace_back(
            "key by its notes",
            key_in_words(record) + (record.key && !record.key_decided ? " (the notes do not decide)" : ""));
    }
    if (page.facts.keys_in_turn.size() > 1)
        facts.lines.emplace_back("key changes", keys_in_turn_in_words(page.facts.keys_in_turn));
    if (const std::string words = evidence_in_words(page); !words.empty()) facts.lines.emplace_back("why", words);
    facts.lines.emplace_back(
        "range", range_of(record.needed, fifths) +
                     (record.needed.empty()
                          ? ""
                          : ", " + std::to_string(record.needed.highest() - record.needed.lowest()) + " semitones"));
    facts.lines.emplace_back("starts on", note_or_dash(record.first_note, fifths));
    facts.lines.emplace_back("ends on", note_or_dash(record.last_note, fifths));
    facts.lines.emplace_back("notes needed",
                             note_list(record.needed, fifths) + " (" + std::to_string(record.needed.size()) + ")");
    if (!record.ornaments.empty()) facts.lines.emplace_back("grace notes", note_list(record.ornaments, fifths));
    facts.lines.emplace_back(
        "bars", std::to_string(record.bars) + " written, " + std::to_string(record.different_bars) + " different");
    add_structure(page.facts, fifths, facts);
    if (record.scrap)
        facts.lines.emplace_back("a scrap", std::string(tune::scrap_in_words(*record.scrap)) + "; never proposed");
    if (record.errors > 0)
        facts.lines.emplace_back("faults", counted(static_cast<std::int64_t>(record.errors), "thing", "things") +
                                               " in its ABC could not be read");
    document.blocks.emplace_back(std::move(facts));
    if (!page.facts.uses.empty()) {
        document.blocks.emplace_back(Heading{"Where its notes stand"});
        document.blocks.emplace_back(table_of_notes(page, fifths));
    }
    if (page.in_hand) describe_in_hand(*page.in_hand, fifths, document);
    if (page.settings.size() > 1) {
        document.blocks.emplace_back(Heading{"Versions"});
        Table table{
            {{"own id"}, {"title", Fit::wrapped, 20}, {"file", Fit::wrapped, 12}, {"line"}, {"key stated"}, {"range"}},
            {}};
        for (const tune::TuneRecord& setting : page.settings)
            table.rows.push_back({Cell(setting.own.value), Cell(title_of(setting)), Cell(setting.file),
                                  Cell(std::int64_t{setting.line}), Cell(setting.key_stated),
                                  Cell(range_of(setting.needed, tune::spelling_fifths(setting)))});
        document.blocks.emplace_back(std::move(table));
        const std::string ids =
            std::to_string(page.settings[0].own.value) + " " + std::to_string(page.settings[1].own.value);
        document.blocks.emplace_back(Paragraph{"One tune by their notes or because you said so; gamut same --not " +
                                               ids + " parts two of them."});
    }
    if (!page.said.empty()) {
        document.blocks.emplace_back(Heading{"What you said of it"});
        Particulars said;
        for (const answers::SaidOf& words : page.said) {
            const auto named = [](const tune::TuneRecord& of) {
                return std::to_string(of.own.value) + " " + title_of(of);
            };
            said.lines.emplace_back(words.is_same ? "one tune" : "two tunes",
                                    named(words.one) + " and " + named(words.other));
        }
        document.blocks.emplace_back(std::move(said));
    }
    if (!page.kin.empty()) {
        document.blocks.emplace_back(Heading{"Probably the same tune"});
        Table table{{{"alike"}, {"own id"}, {"title", Fit::wrapped, 20}, {"file", Fit::wrapped, 12}, {"line"}}, {}};
        for (const answers::ProbableKin& kin : page.kin)
            table.rows.push_back({Cell(likeness_in_words(kin.likeness)), Cell(kin.record.own.value),
                                  Cell(title_of(kin.record)), Cell(kin.record.file),
                                  Cell(std::int64_t{kin.record.line})});
        document.blocks.emplace_back(std::move(table));
        document.blocks.emplace_back(Hint{"gamut same " + std::to_string(record.own.value) + " " +
                                          std::to_string(page.kin[0].record.own.value) +
                                          " says that it is, gamut same --not that it is not."});
    }
    return document;
}

std::string as_json(const answers::TuneAnswer& page) {
    const int fifths = tune::spelling_fifths(page.record);
    Json tune = row_json(page.record, std::nullopt);
    tune["gone"] = page.is_gone;
    tune["key_evidence"] = page.facts.key ? Json(page.facts.key->evidence) : Json::array();
    tune["keys_in_turn"] = Json::array();
    for (const music::Key& key : page.facts.keys_in_turn) tune["keys_in_turn"].push_back(music::to_string(key));
    tune["uses"] = Json::array();
    for (const tune::NoteUse& use : page.facts.uses)
        tune["uses"].push_back({{"note", note_or_dash(use.midi, fifths)},
                                {"pitch", use.midi},
                                {"count", use.count},
                                {"strong", use.strong},
                                {"bars", use.bars}});
    tune["settings"] = Json::array();
    for (const tune::TuneRecord& setting : page.settings) tune["settings"].push_back(row_json(setting, std::nullopt));
    add_structure(page.facts, fifths, tune);
    tune["said"] = Json::array();
    for (const answers::SaidOf& words : page.said)
        tune["said"].push_back(
            {{"one_own_id", words.one.own.value}, {"other_own_id", words.other.own.value}, {"same", words.is_same}});
    tune["probably_same"] = Json::array();
    for (const answers::ProbableKin& kin : page.kin)
        tune["probably_same"].push_back(
            {{"id", kin.record.id.value},
             {"own_id", kin.record.own.value},
             {"title", kin.record.titles.empty() ? Json(nullptr) : Json(kin.record.titles.front())},
             {"likeness", std::round(kin.likeness * 1000) / 1000}});
    if (page.in_hand) tune["on"] = in_hand_json(*page.in_hand, fifths);
    tune["abc"] = page.abc;
    Json json;
    json["version"] = 1;
    json["tune"] = std::move(tune);
    return finish(json);
}

}  // namespace report
