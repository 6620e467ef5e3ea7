#include "report/pages/instrument_page.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "music/pitch.h"
#include "report/words/json.h"
#include "report/words/way_label.h"
#include "report/words/words.h"

namespace report {

using instruments::Direction;
using instruments::Instrument;
using instruments::InstrumentNote;
using instruments::Way;

namespace {

constexpr int kFifths = 1;  // how notes are spelled where no tune says it: as beside one sharp
constexpr int kOctave = 12;

std::string name_of(int midi) { return music::to_string(music::spell_midi(midi, kFifths)); }

int lowest(const Instrument& instrument) { return instrument.notes.front().written; }
int highest(const Instrument& instrument) { return instrument.notes.back().written; }

std::string compass_of(int low, int high) { return name_of(low) + ".." + name_of(high); }

std::string sounds_in_words(int offset) {
    if (offset == 0) return "as written";
    const std::string side = offset > 0 ? "above" : "below";
    if (offset % kOctave == 0) {
        const int octaves = std::abs(offset) / kOctave;
        return (octaves == 1 ? "an octave " : std::to_string(octaves) + " octaves ") + side + " what is written";
    }
    return counted(std::abs(offset), "semitone", "semitones") + " " + side + " what is written";
}

std::string keys_of(const Instrument& instrument) {
    std::string keys;
    for (const music::Key& key : instrument.keys) keys += (keys.empty() ? "" : ", ") + music::to_string(key);
    return keys;
}

std::string way_in_words(const Way& way) {
    const bool says_more = !way.technique.empty() && way.direction == Direction::none && way.row.empty() &&
                           way.technique != "holes" && way.technique != "voice";
    return way.fingering + (says_more ? " " + way.technique : "");
}

std::string other_ways(const InstrumentNote& note) {
    std::string words;
    for (std::size_t at = 1; at < note.ways.size(); ++at)
        words += fmt::format("{}{} ({})", at > 1 ? "; " : "", way_in_words(note.ways[at]), note.ways[at].grade);
    return words;
}

std::vector<const InstrumentNote*> notes_of(const InstrumentPage& page) {
    std::vector<const InstrumentNote*> notes;
    for (const InstrumentNote& note : page.instrument->notes)
        if (!page.where || page.where->has(note.written)) notes.push_back(&note);
    return notes;
}

double hertz_of(const Instrument& instrument, const InstrumentNote& note) {
    return music::hertz(note.written + instrument.sounding_offset);
}

Particulars particulars_of(const Instrument& instrument) {
    Particulars lines;
    lines.lines.emplace_back("id", instrument.id);
    lines.lines.emplace_back("kind", instrument.family);
    lines.lines.emplace_back("range", compass_of(lowest(instrument), highest(instrument)) + ", " +
                                          counted(static_cast<std::int64_t>(instrument.notes.size()), "note", "notes"));
    lines.lines.emplace_back("usual compass", compass_of(instrument.core.lowest, instrument.core.highest));
    lines.lines.emplace_back("sounds", sounds_in_words(instrument.sounding_offset));
    if (!instrument.keys.empty()) lines.lines.emplace_back("usual keys", keys_of(instrument));
    if (!instrument.caveat.empty()) lines.lines.emplace_back("may differ", instrument.caveat);
    lines.lines.emplace_back("source", instrument.source);
    return lines;
}

Table note_table(const InstrumentPage& page) {
    Table table{{{"note"},
                 {"MIDI"},
                 {"Hz"},
                 {"hardness"},
                 {"usual way", Fit::wrapped, 14},
                 {"other ways, with their hardness", Fit::wrapped, 20}},
                {}};
    for (const InstrumentNote* note : notes_of(page))
        table.rows.push_back({Cell(name_of(note->written)), Cell(std::int64_t{note->written}),
                              Cell(fmt::format("{:.1f}", hertz_of(*page.instrument, *note))),
                              Cell(std::int64_t{note->ways.front().grade}), Cell(way_in_words(note->ways.front())),
                              Cell(other_ways(*note))});
    return table;
}

// Each reason once, with the notes it is given for, easy ones first.
Particulars reasons_of(const InstrumentPage& page) {
    std::map<std::pair<int, std::string>, std::string> notes;
    for (const InstrumentNote* note : notes_of(page)) {
        const Way& way = note->ways.front();
        std::string& named = notes[{way.grade, way.reason.empty() ? "no reason given" : way.reason}];
        named += (named.empty() ? "" : " ") + name_of(note->written);
    }
    Particulars lines;
    for (const auto& [reason, named] : notes)
        lines.lines.emplace_back("hardness " + std::to_string(reason.first), reason.second + ": " + named);
    return lines;
}

// One note, all of its ways in full.
void describe_note(const Instrument& instrument, const InstrumentNote& note, Document& document) {
    document.blocks.emplace_back(Heading{fmt::format("{}: MIDI {}, sounds at {:.1f} Hz", name_of(note.written),
                                                     note.written, hertz_of(instrument, note))});
    Particulars ways;
    for (const Way& way : note.ways)
        ways.lines.emplace_back(way_in_words(way), fmt::format("hardness {}{}{} ({})", way.grade,
                                                               way.reason.empty() ? "" : ": ", way.reason, way.source));
    document.blocks.emplace_back(std::move(ways));
}

Json way_json(const Way& way) {
    const auto text_or_null = [](const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); };
    return {{"technique", way.technique},
            {"fingering", way.fingering},
            {"row", text_or_null(way.row)},
            {"position", text_or_null(way.position)},
            {"direction",
             way.direction == Direction::none ? Json(nullptr) : Json(instruments::direction_token(way.direction))},
            {"grade", way.grade},
            {"reason", text_or_null(way.reason)},
            {"source", way.source}};
}

Json outline_json(const Instrument& instrument) {
    Json keys = Json::array();
    for (const music::Key& key : instrument.keys) keys.push_back(music::to_string(key));
    Json costs = Json::object();
    for (std::size_t at = 0; at < instruments::kMotions; ++at)
        if (instrument.motion_costs[at] > 0)
            costs[std::string(instruments::motion_token(static_cast<instruments::Motion>(at)))] =
                instrument.motion_costs[at];
    return {{"id", instrument.id},
            {"title", instrument.title},
            {"family", instrument.family},
            {"sounding_offset", instrument.sounding_offset},
            {"lowest", name_of(lowest(instrument))},
            {"highest", name_of(highest(instrument))},
            {"note_count", instrument.notes.size()},
            {"core", {{"lowest", name_of(instrument.core.lowest)}, {"highest", name_of(instrument.core.highest)}}},
            {"keys", std::move(keys)},
            {"bisonoric", instrument.is_bisonoric()},
            {"motions", std::move(costs)},
            {"source", instrument.source},
            {"caveat", instrument.caveat.empty() ? Json(nullptr) : Json(instrument.caveat)},
            {"cautions", instrument.cautions}};
}

}  // namespace

Document describe(const InstrumentsPage& page) {
    Table table{{{"id"}, {"instrument", Fit::wrapped, 24}, {"notes"}, {"range"}, {"usual"}}, {}};
    for (const Instrument* each : page.instruments)
        table.rows.push_back({Cell(each->id), Cell(each->title), Cell(static_cast<std::int64_t>(each->notes.size())),
                              Cell(compass_of(lowest(*each), highest(*each))),
                              Cell(compass_of(each->core.lowest, each->core.highest))});
    Document document;
    document.blocks.emplace_back(Title{"Instruments", true});
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{
        "Ranges as tunes are written for them. gamut instrument show ID shows one; an instrument of your own is a file "
        "for --instrument-file."});
    return document;
}

Document tabulate(const InstrumentsPage& page) {
    Table table{{{"id"},
                 {"title"},
                 {"family"},
                 {"notes"},
                 {"lowest"},
                 {"highest"},
                 {"core_lowest"},
                 {"core_highest"},
                 {"sounding_offset"},
                 {"source"},
                 {"caveat"}},
                {}};
    for (const Instrument* each : page.instruments)
        table.rows.push_back({Cell(each->id), Cell(each->title), Cell(each->family),
                              Cell(static_cast<std::int64_t>(each->notes.size())), Cell(name_of(lowest(*each))),
                              Cell(name_of(highest(*each))), Cell(name_of(each->core.lowest)),
                              Cell(name_of(each->core.highest)), Cell(std::int64_t{each->sounding_offset}),
                              Cell(each->source), Cell(each->caveat)});
    Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

std::string as_json(const InstrumentsPage& page) {
    Json json;
    json["version"] = 1;
    json["instruments"] = Json::array();
    for (const Instrument* each : page.instruments) json["instruments"].push_back(outline_json(*each));
    return finish(json);
}

Document describe(const InstrumentPage& page) {
    const Instrument& instrument = *page.instrument;
    Document document;
    document.blocks.emplace_back(Title{instrument.title});
    if (!page.where) document.blocks.emplace_back(particulars_of(instrument));
    const music::NoteSet marked = page.where.value_or(music::NoteSet());
    if (can_be_seen(instrument)) {
        if (!page.where) document.blocks.emplace_back(Heading{"What the player sees"});
        document.blocks.emplace_back(InstrumentPicture{instrument, marked});
    }
    if (page.where) {
        for (const InstrumentNote* note : notes_of(page)) describe_note(instrument, *note, document);
        return document;
    }
    document.blocks.emplace_back(Heading{"Notes"});
    document.blocks.emplace_back(note_table(page));
    document.blocks.emplace_back(Heading{"Why so hard, or so easy"});
    document.blocks.emplace_back(reasons_of(page));
    document.blocks.emplace_back(Paragraph{
        "Hardness for a beginner: 1 first lessons, 2 first term, 3 first year, 4 later, 5 avoid unless the tune "
        "is worth it. Hz of what sounds, A4 at 440, every semitone alike. --where NOTE shows a note in full."});
    if (!instrument.cautions.empty()) {
        document.blocks.emplace_back(Heading{"Care"});
        for (const std::string& caution : instrument.cautions) document.blocks.emplace_back(Caution{caution});
    }
    return document;
}

Document tabulate(const InstrumentPage& page) {
    Table table{{{"note"},
                 {"pitch"},
                 {"sounding_pitch"},
                 {"hertz"},
                 {"core"},
                 {"way"},
                 {"technique"},
                 {"fingering"},
                 {"row"},
                 {"position"},
                 {"direction"},
                 {"hardness"},
                 {"reason"},
                 {"source"}},
                {}};
    for (const InstrumentNote* note : notes_of(page))
        for (std::size_t at = 0; at < note->ways.size(); ++at) {
            const Way& way = note->ways[at];
            table.rows.push_back(
                {Cell(name_of(note->written)), Cell(std::int64_t{note->written}),
                 Cell(std::int64_t{note->written + page.instrument->sounding_offset}),
                 Cell(fmt::format("{:.2f}", hertz_of(*page.instrument, *note))), Cell(note->is_core ? "yes" : "no"),
                 Cell(static_cast<std::int64_t>(at) + 1), Cell(way.technique), Cell(way.fingering), Cell(way.row),
                 Cell(way.position),
                 Cell(way.direction == Direction::none ? std::string()
                                                       : std::string(instruments::direction_token(way.direction))),
                 Cell(std::int64_t{way.grade}), Cell(way.reason), Cell(way.source)});
        }
    Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

std::string as_json(const InstrumentPage& page) {
    Json instrument = outline_json(*page.instrument);
    instrument["notes"] = Json::array();
    for (const InstrumentNote* note : notes_of(page)) {
        Json ways = Json::array();
        for (const Way& way : note->ways) ways.push_back(way_json(way));
        instrument["notes"].push_back({{"note", name_of(note->written)},
                                       {"pitch", note->written},
                                       {"sounding_pitch", note->written + page.instrument->sounding_offset},
                                       {"hertz", std::round(hertz_of(*page.instrument, *note) * 100) / 100},
                                       {"core", note->is_core},
                                       {"grade", note->grade()},
                                       {"ways", std::move(ways)}});
    }
    Json json;
    json["version"] = 1;
    json["instruments"] = Json::array({std::move(instrument)});
    return finish(json);
}

}  // namespace report
