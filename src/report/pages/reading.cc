#include "report/pages/reading.h"

#include "report/pages/record_of.h"
#include "report/words/json.h"
#include "report/words/structure.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace report {

namespace {

using music::Sound;

std::string head_line(const ReadSetting& read) {
    const tune::Setting& setting = read.setting;
    std::string line = setting.number ? "X:" + *setting.number + "  " : "";
    line += setting.titles.empty() ? std::string(tune::kNoTitle) : setting.titles.front();
    return line + "  (" + read.source.label() + ":" + std::to_string(setting.line) + ")";
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

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

Json diagnostics_json(const std::vector<ReadFindings>& files) {
    Json list = Json::array();
    for (const ReadFindings& reading : files)
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

std::int64_t not_kept(const std::vector<ReadFindings>& files) {
    std::size_t count = 0;
    for (const ReadFindings& reading : files) count += reading.diagnostics->not_kept();
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

void add_facts(const ReadSetting& read, Document& document) {
    const tune::TuneRecord record = record_of(read.setting, read.facts, read.source.label());
    const int fifths = tune::spelling_fifths(record);
    document.blocks.emplace_back(Heading{head_line(read)});
    Particulars facts;
    facts.lines.emplace_back("kind", rhythm_in_words(record) + ", meter " + record.meter);
    facts.lines.emplace_back("key", "stated " + stated_key_in_words(record) + "; by its notes " + key_in_words(record) +
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

void add_melody(const ReadSetting& read, Document& document) {
    document.blocks.emplace_back(Heading{head_line(read)});
    document.blocks.emplace_back(Particulars{{{"pitches", joined(pitch_words(read.setting.melody))},
                                              {"lengths", joined(length_words(read.setting.melody))}}});
}

std::string reading_json_opening() { return "{\"version\":1,\"tunes\":["; }

std::string facts_row_json(const ReadSetting& read) {
    const tune::TuneRecord record = record_of(read.setting, read.facts, read.source.label());
    Json row = row_json(record, std::nullopt);
    for (const char* id : {"id", "own_id", "setting_count", "setting"}) row[id] = nullptr;
    row["uses"] = Json::array();
    for (const tune::NoteUse& use : read.facts.uses)
        row["uses"].push_back({{"note", note_or_dash(use.midi, tune::spelling_fifths(record))},
                               {"pitch", use.midi},
                               {"count", use.count},
                               {"strong", use.strong},
                               {"bars", use.bars}});
    row["key_evidence"] = read.facts.key ? Json(read.facts.key->evidence) : Json::array();
    add_structure(read.facts, tune::spelling_fifths(record), row);
    return compact(row);
}

std::string melody_row_json(const ReadSetting& read) {
    const tune::Setting& setting = read.setting;
    return compact({{"number", or_null(setting.number)},
                    {"title", setting.titles.empty() ? Json(nullptr) : Json(setting.titles.front())},
                    {"titles", setting.titles},
                    {"file", read.source.label()},
                    {"line", setting.line},
                    {"key_stated", music::to_string(setting.key)},
                    {"pitches", pitch_words(setting.melody)},
                    {"durations", length_words(setting.melody)}});
}

std::string reading_json_closing(const std::vector<ReadFindings>& files) {
    return "],\"diagnostics\":" + compact(diagnostics_json(files)) +
           ",\"diagnostics_not_listed\":" + std::to_string(not_kept(files)) + "}\n";
}

}  // namespace report
