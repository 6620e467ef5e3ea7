// Tunes as they stand in a set, made by hand or from ABC text.
#pragma once

#include <string>
#include <string_view>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "music/note_expression.h"
#include "repertoire/tune_shape.h"
#include "tune/title.h"

namespace repertoire_test {

inline music::Key key_of(const std::string& text) { return music::parse_stated_key(text)->key; }

// Begins and ends on its home note in the octave of D4 to C5 unless said otherwise; its opening is like no other.
inline repertoire::TuneShape shape(std::int64_t id, const std::string& rhythm, const std::string& key,
                                   const char* notes = "D4 E4 F#4 G4 A4 B4 D5") {
    repertoire::TuneShape shape;
    shape.id = {id};
    shape.title = "Tune " + std::to_string(1000 + id);
    shape.folded_title = tune::fold_title(shape.title);
    shape.rhythm = rhythm;
    shape.meter = rhythm == "reel" ? "4/4" : "6/8";
    if (!key.empty()) shape.key = key_of(key);
    shape.key_decided = true;
    shape.needed = music::read_notes(notes);
    const int home = shape.key ? (shape.key->tonic.pitch_class() + 10) % 12 + 62 : 62;
    shape.first_note = shape.last_note = home;
    shape.bars = 32;
    std::uint64_t state = static_cast<std::uint64_t>(id) * 2654435761U + 12345;
    for (std::uint8_t& place : shape.opening) {
        state = state * 6364136223846793005U + 1442695040888963407U;
        place = static_cast<std::uint8_t>((state >> 33) % 12);
    }
    return shape;
}

// A tune as it comes from the library.
struct Fetched {
    tune::TuneRecord record;
    tune::Outline outline;
};

inline Fetched fetched(std::string_view abc, std::int64_t id = 1) {
    base::Diagnostics diagnostics;
    const base::SourceFile source("test.abc", std::string(abc));
    const tune::Setting setting = abc::read_settings(source, diagnostics).front();
    const tune::TuneFacts facts = analysis::analyse(setting);
    Fetched tune;
    tune.record.id = {id};
    tune.record.titles = setting.titles;
    tune.record.rhythm = facts.rhythm;
    tune.record.meter = music::to_string(facts.meter.value);
    if (facts.key) tune.record.key = facts.key->headline();
    tune.record.needed = facts.needed;
    tune.record.different_bars = facts.different_bars;
    tune.outline = facts.outline;
    return tune;
}

inline repertoire::TuneShape shape_of_abc(std::string_view abc, std::int64_t id = 1) {
    const Fetched tune = fetched(abc, id);
    return *repertoire::shape_of(tune.record, tune.outline);
}

}  // namespace repertoire_test
