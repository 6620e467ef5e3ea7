// The TOML is read by toml++. Tested by tests/unit/instruments/instrument_file_test.cc and instrument_faults_test.cc.
#include "instruments/instrument_file.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "instruments/relative.h"
#include "instruments/toml_access.h"
#include "instruments/ways_table.h"
#include "music/pitch.h"

namespace instruments {

namespace {

constexpr std::array<std::string_view, 19> kKeys{"title",   "family",     "source",    "core",      "sounding_offset",
                                                 "caveat",  "cautions",   "rows",      "technique", "fingering",
                                                 "grade",   "way_source", "columns",   "ways",      "reasons",
                                                 "sources", "based_on",   "semitones", "keys"};
constexpr std::array<std::string_view, 3> kKeysOfTables{"row_names", "row_signs", "motions"};

constexpr int kMostSemitones = 48;  // Source: house choice, four octaves; no instrument is written further off

std::string text_needed(const toml::table& file, std::string_view key) {
    auto text = text_at(file, key);
    if (!text) misread(file.source(), std::string(key) + " is missing");
    return std::move(*text);
}

// `D4..B5`.
music::Compass read_core(const toml::node& node) {
    const std::string text = text_of(node, "core");
    const std::size_t dots = text.find("..");
    if (dots != std::string::npos) {
        const auto lowest = music::parse_pitch(text.substr(0, dots));
        const auto highest = music::parse_pitch(text.substr(dots + 2));
        if (lowest && highest && lowest->midi() <= highest->midi()) return {lowest->midi(), highest->midi()};
    }
    misread(node.source(), "core must be a compass such as \"D4..B5\", the lower note first");
}

void rename_rows(const toml::table& file, Instrument& instrument) {
    const toml::table* names = table_at(file, "row_names");
    if (names == nullptr) return;
    // All at once, so that rows may exchange their names.
    std::vector<std::pair<std::string, std::string>> renamed;
    for (const auto& [from, to] : *names) {
        if (std::find(instrument.rows.begin(), instrument.rows.end(), from.str()) == instrument.rows.end())
            misread(from.source(), "\"" + std::string(from.str()) + "\" is no row of " + instrument.id);
        renamed.emplace_back(from.str(), text_of(to, "the new name of a row"));
    }
    constexpr std::string_view kInBetween = "\n";  // no row is called so
    for (std::size_t at = 0; at < renamed.size(); ++at)
        rename_row(instrument, renamed[at].first, std::string(kInBetween) + std::to_string(at));
    for (std::size_t at = 0; at < renamed.size(); ++at)
        rename_row(instrument, std::string(kInBetween) + std::to_string(at), renamed[at].second);
}

// `keys = ["D major", "A dorian"]`.
std::vector<music::Key> read_customary_keys(const toml::table& file) {
    std::vector<music::Key> keys;
    const std::vector<std::string> texts = texts_at(file, "keys");
    for (std::size_t at = 0; at < texts.size(); ++at) {
        const std::size_t blank = texts[at].find(' ');
        const auto tonic = music::parse_note_name(texts[at].substr(0, blank));
        const auto mode = blank == std::string::npos ? std::nullopt : music::parse_mode(texts[at].substr(blank + 1));
        if (!tonic || !mode)
            misread(file.get("keys")->as_array()->get(at)->source(),
                    "\"" + texts[at] + "\" is no key: write a tonic and a mode, such as \"A dorian\"");
        keys.push_back({*tonic, *mode});
    }
    return keys;
}

// The rows in the order of the file, where it says one; then those it leaves out, as the ways name them.
void order_rows(std::vector<std::string> rows, const std::vector<WrittenWay>& ways, Instrument& instrument) {
    const auto place = [](const std::vector<std::string>& in, const std::string& row) {
        return static_cast<std::size_t>(std::find(in.begin(), in.end(), row) - in.begin());
    };
    for (const std::string& row : instrument.rows)
        if (place(rows, row) == rows.size()) rows.push_back(row);
    for (const WrittenWay& each : ways) {
        if (each.way.row.empty() || place(rows, each.way.row) < rows.size()) continue;
        if (rows.size() == kMostTexts)
            misread(each.where, "there must be no more than " + std::to_string(kMostTexts) + " rows");
        rows.push_back(each.way.row);
    }
    std::vector<std::string> signs(rows.size());
    for (std::size_t at = 0; at < instrument.row_signs.size(); ++at)
        signs[place(rows, instrument.rows[at])] = instrument.row_signs[at];
    instrument.rows = std::move(rows);
    instrument.row_signs = std::move(signs);
}

// A row without a sign in the file keeps what it had. No two rows may have the same.
void read_row_signs(const toml::table& file, Instrument& instrument) {
    const toml::table* signs = table_at(file, "row_signs");
    if (signs == nullptr) return;
    for (const auto& [row, sign] : *signs) {
        const auto found = std::find(instrument.rows.begin(), instrument.rows.end(), row.str());
        if (found == instrument.rows.end())
            misread(row.source(), "\"" + std::string(row.str()) + "\" is none of the rows");
        instrument.row_signs[static_cast<std::size_t>(found - instrument.rows.begin())] =
            text_of(sign, "the sign of a row");
    }
    for (const auto& [row, sign] : *signs) {
        const std::string text = text_of(sign, "the sign of a row");
        if (std::count(instrument.row_signs.begin(), instrument.row_signs.end(), text) > 1)
            misread(sign.source(), "\"" + text + "\" is the sign of two rows");
    }
}

// What the file does not name costs what it cost before.
void read_motion_costs(const toml::table& file, Instrument& instrument) {
    const toml::table* costs = table_at(file, "motions");
    if (costs == nullptr) return;
    for (const auto& [token, cost] : *costs) {
        const auto motion = parse_motion(token.str());
        if (!motion)
            misread(token.source(), "\"" + std::string(token.str()) + "\" is no motion of the hand; there are " +
                                        listed(motion_tokens()));
        instrument.motion_costs[static_cast<std::size_t>(*motion)] =
            static_cast<std::uint8_t>(number_of(cost, "the cost of a motion", 0, kDearestMotion));
    }
}

// The instrument a file is based on, moved; an empty one where it stands for itself.
Instrument base_of(const toml::table& file, const FindInstrument& find) {
    const toml::node* based_on = file.get("based_on");
    if (based_on == nullptr) {
        for (const std::string_view key : {"semitones", "row_names"})
            if (const toml::node* node = file.get(key)) misread(node->source(), std::string(key) + " needs based_on");
        return {};
    }
    const std::string id = text_of(*based_on, "based_on");
    const Instrument* known = find ? find(id) : nullptr;
    if (known == nullptr) misread(based_on->source(), "there is no instrument \"" + id + "\" to be based on");
    auto base = moved(*known, number_at(file, "semitones", -kMostSemitones, kMostSemitones).value_or(0));
    if (!base) misread(file.get("semitones")->source(), "so moved, a note of " + id + " leaves the range C-1 to G9");
    rename_rows(file, *base);
    return std::move(*base);
}

// Ways of the file before those of the base; one at the same place takes its place.
void add_ways(const std::vector<WrittenWay>& ways, Instrument& instrument) {
    std::map<int, std::vector<Way>> by_note;
    for (const WrittenWay& each : ways) by_note[each.midi].push_back(each.way);
    for (const InstrumentNote& note : instrument.notes)
        for (const Way& old : note.ways) {
            const bool is_replaced = std::any_of(ways.begin(), ways.end(), [&](const WrittenWay& each) {
                return same_place(each.way, old) || (each.midi == note.written && each.way.fingering == old.fingering &&
                                                     each.way.technique == old.technique);
            });
            if (!is_replaced) by_note[note.written].push_back(old);
        }
    instrument.notes.clear();
    for (auto& [midi, made] : by_note) instrument.notes.push_back({midi, false, std::move(made)});
}

void check_sounding(const toml::table& file, const std::vector<WrittenWay>& ways, const Instrument& instrument) {
    for (const InstrumentNote& note : instrument.notes) {
        const int sounding = note.written + instrument.sounding_offset;
        if (sounding >= 0 && sounding < music::kMidiNotes) continue;
        const auto way =
            std::find_if(ways.begin(), ways.end(), [&](const WrittenWay& each) { return each.midi == note.written; });
        const toml::node* offset = file.get("sounding_offset");
        misread(way != ways.end() ? way->where
                : offset          ? offset->source()
                                  : file.source(),
                music::to_string(music::spell_midi(note.written, 1)) + " would sound outside C-1 to G9");
    }
}

Instrument read_file(const toml::table& file, const FindInstrument& find) {
    std::vector<std::string_view> keys(kKeys.begin(), kKeys.end());
    keys.insert(keys.end(), kKeysOfTables.begin(), kKeysOfTables.end());
    check_keys(file, keys);

    Instrument instrument = base_of(file, find);
    const bool is_relative = file.contains("based_on");
    instrument.title = text_needed(file, "title");
    if (!is_relative || file.contains("family")) instrument.family = text_needed(file, "family");
    if (!is_relative || file.contains("source")) instrument.source = text_needed(file, "source");
    if (const auto caveat = text_at(file, "caveat")) instrument.caveat = *caveat;
    if (file.contains("cautions")) instrument.cautions = texts_at(file, "cautions");
    if (const auto offset = number_at(file, "sounding_offset", -kMostSemitones, kMostSemitones))
        instrument.sounding_offset = *offset;

    std::vector<std::string> rows = texts_at(file, "rows");
    const std::vector<WrittenWay> ways = read_ways(file, rows, instrument.source);
    add_ways(ways, instrument);
    if (instrument.notes.empty())
        misread(file.contains("ways") ? file.get("ways")->source() : file.source(),
                "there is no note: ways needs a line at least");
    check_sounding(file, ways, instrument);

    order_rows(std::move(rows), ways, instrument);
    read_row_signs(file, instrument);
    read_motion_costs(file, instrument);
    if (file.contains("keys")) instrument.keys = read_customary_keys(file);

    if (const toml::node* core = file.get("core"))
        instrument.core = read_core(*core);
    else if (!is_relative)
        instrument.core = {instrument.notes.front().written, instrument.notes.back().written};
    for (InstrumentNote& note : instrument.notes)
        note.is_core = note.written >= instrument.core.lowest && note.written <= instrument.core.highest;
    return instrument;
}

}  // namespace

InstrumentFault::InstrumentFault(const std::string& label, std::uint32_t line, std::uint32_t column,
                                 const std::string& sentence)
    : std::runtime_error(label + ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + sentence),
      line_(line),
      column_(column) {}

Instrument read_instrument(std::string_view text, std::string id, const std::string& label,
                           const FindInstrument& find) {
    if (text.size() > kMostFileBytes)
        throw InstrumentFault(label, 1, 1, "is larger than an instrument file may be (1 MiB)");
    try {
        check_before_parsing(text);
        Instrument instrument = read_file(toml::parse(text), find);
        instrument.id = std::move(id);
        return instrument;
    } catch (const Misread& misread) {
        throw InstrumentFault(label, misread.line, misread.column, misread.sentence);
    } catch (const toml::parse_error& error) {
        const toml::source_position where = error.source().begin;
        throw InstrumentFault(label, std::max<std::uint32_t>(where.line, 1), std::max<std::uint32_t>(where.column, 1),
                              "this is no TOML: " + std::string(error.description()));
    }
}

}  // namespace instruments
