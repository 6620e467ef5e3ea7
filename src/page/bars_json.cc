// Tested by engine_test.cc.
#include "page/bars_json.h"

#include <map>
#include <nlohmann/json.hpp>

#include "abc/read.h"
#include "analysis/note_uses.h"
#include "answers/tune_named.h"
#include "base/source_file.h"
#include "hands/line.h"
#include "music/pitch.h"
#include "repertoire/pace.h"

namespace page {

namespace {

using Json = nlohmann::ordered_json;

// Numerator and denominator of parts of a semibreve.
Json exact(const music::Duration& length) { return Json::array({length.numerator(), length.denominator()}); }

// The place of each struck sound in the line the hands play, as the `ways` of a tune on an instrument count.
std::map<std::size_t, std::size_t> strokes_of(const music::Melody& melody) {
    std::map<std::size_t, std::size_t> strokes;
    std::size_t count = 0;
    for (const hands::LineNote& note : hands::top_of(hands::line_of(melody))) strokes[note.sound] = count++;
    return strokes;
}

const music::NoteHead& top_head(const music::Melody& melody, const music::Sound& sound) {
    const music::NoteHead* top = &melody.heads[sound.first_head];
    for (std::uint32_t at = 1; at < sound.head_count; ++at)
        if (melody.heads[sound.first_head + at].midi > top->midi) top = &melody.heads[sound.first_head + at];
    return *top;
}

Json sound_json(const music::Melody& melody, std::size_t at, const std::map<std::size_t, std::size_t>& strokes) {
    const music::Sound& sound = melody.sounds[at];
    Json json{{"length", exact(sound.length)}, {"at", sound.at ? exact(*sound.at) : Json(nullptr)}};
    if (sound.head_count == 0) {
        json["pitch"] = nullptr;
        return json;
    }
    const music::NoteHead& head = top_head(melody, sound);
    json["pitch"] = head.midi;
    json["name"] = music::to_string(head.name);
    json["tied"] = head.is_tied;
    const auto stroke = strokes.find(at);
    json["way"] = stroke == strokes.end() ? Json(nullptr) : Json(stroke->second);
    return json;
}

// Beats of the foot a minute; null for a kind that has no beat.
Json pace_json(const tune::TuneRecord& record) {
    const auto pace = record.rhythm ? repertoire::pace_of(record.rhythm->value) : std::nullopt;
    if (!pace) return nullptr;
    return {{"beats_in_bar", repertoire::beats_in_bar(*pace, record.meter)},
            {"easy", pace->beats_a_minute(repertoire::PaceKind::easy)},
            {"session", pace->beats_a_minute(repertoire::PaceKind::session)}};
}

}  // namespace

std::string bars_json(const collection::Collection& collection, const std::string& which) {
    const tune::TuneRecord record = answers::tune_named(collection, which);
    Json json{{"version", 1}, {"pace", pace_json(record)}, {"abc", ""}, {"bars", Json::array()}};
    const auto kept = collection.abc_of(record.setting);
    if (!kept) return json.dump();
    json["abc"] = kept->text;
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(base::SourceFile(kept->file, kept->text), unheard);
    if (settings.empty()) return json.dump(-1, ' ', false, Json::error_handler_t::replace);
    const music::Melody& melody = settings.back().melody;
    const auto strokes = strokes_of(melody);
    const std::vector<int> numbers = analysis::number_bars(melody);
    for (std::size_t at = 0; at < melody.bars.size(); ++at) {
        const music::Bar& bar = melody.bars[at];
        Json one{{"number", numbers[at]},
                 {"meter", music::to_string(bar.meter)},
                 {"length", bar.length ? exact(*bar.length) : Json(nullptr)},
                 {"opens", bar.repeat_opens},
                 {"closes", bar.repeat_closes},
                 {"ends_part", bar.thick_after},
                 {"ending", bar.ending},
                 {"sounds", Json::array()}};
        const std::size_t end = at + 1 < melody.bars.size() ? melody.bars[at + 1].first_sound : melody.sounds.size();
        for (std::size_t sound = bar.first_sound; sound < end; ++sound)
            if (melody.sounds[sound].kind != music::Sound::Kind::grace)
                one["sounds"].push_back(sound_json(melody, sound, strokes));
        json["bars"].push_back(std::move(one));
    }
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace page
