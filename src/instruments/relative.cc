#include "instruments/relative.h"

namespace instruments {

std::optional<Instrument> moved(const Instrument& instrument, int semitones) {
    Instrument result = instrument;
    const auto is_midi = [](int midi) { return midi >= 0 && midi < music::kMidiNotes; };
    for (InstrumentNote& note : result.notes) {
        note.written += semitones;
        if (!is_midi(note.written) || !is_midi(note.written + result.sounding_offset)) return std::nullopt;
    }
    for (music::Key& key : result.keys) key = music::moved(key, semitones);
    result.core.lowest += semitones;
    result.core.highest += semitones;
    if (!is_midi(result.core.lowest) || !is_midi(result.core.highest)) return std::nullopt;
    return result;
}

void rename_row(Instrument& instrument, std::string_view from, std::string_view to) {
    for (std::string& row : instrument.rows)
        if (row == from) row = to;
    for (InstrumentNote& note : instrument.notes)
        for (Way& way : note.ways) {
            if (way.row != from) continue;
            way.row = to;
            if (way.fingering.starts_with(from)) way.fingering.replace(0, from.size(), to);
        }
}

}  // namespace instruments
