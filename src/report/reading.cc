#include "report/reading.h"

#include "report/json.h"
#include "report/listing.h"
#include "report/record_of.h"
#include "report/structure.h"
#include "report/words.h"

namespace report {

namespace {

using music::Sound;

std::string head_line(const ReadSetting& read, const base::SourceFile& source) {
    const tune::Setting& setting = read.setting;
    std::string line = setting.number ? "X:" + *setting.number + "  " : "";
    line += setting.titles.empty() ? "(no title)" : setting.titles.front();
    return line + "  (" + source.label() + ":" + std::to_string(setting.line) + ")";
}

std::string uses_in_words(const tune::TuneFacts& facts, int fifths) {
    std::string words;
    for (const tune::NoteUse& use : facts.uses) {
        words += (words.empty() ? "" : ", ") + note_or_dash(use.midi, fifths) + " " + std::to_string(use.count);
        if (use.count == 1 && !use.bars.empty())
            words += " (bar " + std::to_string(use.bars.front()) + ", " + (use.strong > 0 ? "strong" : "weak") + ")";
    }
    return words.empty() ? "-" : words;
}

void add_facts(const ReadSetting& read, const base::SourceFile& source, Document& document) {
    const tune::TuneRecord record = record_of(read.setting, read.facts, source.label());
    const int fifths = tune::spelling_fifths(record);
    document.blocks.emplace_back(Heading{head_line(read, source)});
    Particulars facts;
    facts.lines.emplace_back("kind", rhythm_in_words(record) + ", meter " + record.meter);
    facts.lines.emplace_back("key", "stated " + record.key_stated + "; by its notes " + key_in_words(record) +
                                        (record.key && !record.key_decided ? " (undecided)" : ""));
    facts.lines.emplace_back("range", range_of(record.needed, fifths) + ", first note " +
                                          note_or_dash(record.first_note, fifths) + ", last " +
                                          note_or_dash(record.last_note, fifths));
    facts.lines.emplace_back("notes", uses_in_words(read.facts, fifths));
    if (!record.ornaments.empty()) facts.lines.emplace_back("graces", note_list(record.ornaments, fifths));
    facts.lines.emplace_back("bars",
                             std::to_string(record.bars) + ", " + std::to_string(record.different_bars) + " different");
    add_structure(read.facts, fifths, facts);
    if (!read.setting.others.empty())
        facts.lines.emplace_back("other voices", std::to_string(read.setting.others.size()) + " kept apart");
    document.blocks.emplace_back(std::move(facts));
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

Json diagnostics_json(const std::vector<Reading>& readings) {
    Json list = Json::array();
    for (const Reading& reading : readings)
        for (const base::Diagnostic& diagnostic : reading.diagnostics->kept()) {
            const base::Place place = reading.source->place_of(diagnostic.where.begin);
            list.push_back({{"file", reading.source->label()},
                            {"line", place.line},
                            {"column", place.column},
                            {"severity", base::severity_token(diagnostic.severity)},
                            {"code", diagnostic.code},
                            {"message", diagnostic.message}});
        }
    return list;
}

std::int64_t not_kept(const std::vector<Reading>& readings) {
    std::size_t count = 0;
    for (const Reading& reading : readings) count += reading.diagnostics->not_kept();
    return static_cast<std::int64_t>(count);
}

}  // namespace

std::vector<std::string> pitch_words(const music::Melody& melody) {
    std::vector<std::string> words;
    for (const Sound& sound : melody.sounds) {
        if (sound.head_count == 0) continue;
        bool all_tied = true;
        for (std::uint32_t head = 0; head < sound.head_count; ++head)
            all_tied = all_tied && melody.heads[sound.first_head + head].is_tied;
        std::string word = sound.kind == Sound::Kind::grace ? "g" : "";
        for (std::uint32_t head = 0; head < sound.head_count; ++head) {
            const music::NoteHead& note = melody.heads[sound.first_head + head];
            const std::string number = std::to_string(note.midi);
            word += (head > 0 ? "+" : "") + (note.is_tied && !all_tied ? "(" + number + ")" : number);
        }
        words.push_back(all_tied ? "(" + word + ")" : word);
    }
    return words;
}

std::vector<std::string> length_words(const music::Melody& melody) {
    std::vector<std::string> words;
    for (const Sound& sound : melody.sounds)
        if (sound.kind == Sound::Kind::note) words.push_back(music::to_string(sound.length));
    return words;
}

Document describe_facts(const std::vector<Reading>& readings) {
    Document document;
    for (const Reading& reading : readings)
        for (const ReadSetting& read : reading.settings) add_facts(read, *reading.source, document);
    return document;
}

Document tabulate_facts(const std::vector<Reading>& readings) {
    Listing listing;
    for (const Reading& reading : readings)
        for (const ReadSetting& read : reading.settings)
            listing.rows.push_back(record_of(read.setting, read.facts, reading.source->label()));
    return tabulate_listing(listing);
}

Document describe_melodies(const std::vector<Reading>& readings) {
    Document document;
    for (const Reading& reading : readings)
        for (const ReadSetting& read : reading.settings) {
            document.blocks.emplace_back(Heading{head_line(read, *reading.source)});
            document.blocks.emplace_back(Particulars{{{"pitches", joined(pitch_words(read.setting.melody))},
                                                      {"lengths", joined(length_words(read.setting.melody))}}});
        }
    return document;
}

std::string facts_json(const std::vector<Reading>& readings) {
    Json json;
    json["version"] = 1;
    json["tunes"] = Json::array();
    for (const Reading& reading : readings)
        for (const ReadSetting& read : reading.settings) {
            const tune::TuneRecord record = record_of(read.setting, read.facts, reading.source->label());
            Json row = row_json(record, std::nullopt);
            row["id"] = nullptr;
            row["own_id"] = nullptr;
            row["setting_count"] = nullptr;
            row["setting"] = nullptr;
            row["uses"] = Json::array();
            for (const tune::NoteUse& use : read.facts.uses)
                row["uses"].push_back({{"note", note_or_dash(use.midi, tune::spelling_fifths(record))},
                                       {"pitch", use.midi},
                                       {"count", use.count},
                                       {"strong", use.strong},
                                       {"bars", use.bars}});
            row["key_evidence"] = read.facts.key ? Json(read.facts.key->evidence) : Json::array();
            add_structure(read.facts, tune::spelling_fifths(record), row);
            json["tunes"].push_back(std::move(row));
        }
    json["diagnostics"] = diagnostics_json(readings);
    json["diagnostics_not_listed"] = not_kept(readings);
    return finish(json);
}

std::string melodies_json(const std::vector<Reading>& readings) {
    Json json;
    json["version"] = 1;
    json["tunes"] = Json::array();
    for (const Reading& reading : readings)
        for (const ReadSetting& read : reading.settings) {
            const tune::Setting& setting = read.setting;
            json["tunes"].push_back({{"number", or_null(setting.number)},
                                     {"title", setting.titles.empty() ? Json(nullptr) : Json(setting.titles.front())},
                                     {"titles", setting.titles},
                                     {"file", reading.source->label()},
                                     {"line", setting.line},
                                     {"key_stated", music::to_string(setting.key)},
                                     {"pitches", pitch_words(setting.melody)},
                                     {"durations", length_words(setting.melody)}});
        }
    json["diagnostics"] = diagnostics_json(readings);
    json["diagnostics_not_listed"] = not_kept(readings);
    return finish(json);
}

}  // namespace report
