// What a stored term is made of, written and read. Inside this room only; what reads throws StoredFault.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <utility>

#include "music/note_set.h"
#include "syllabus/stored_syllabus.h"

namespace syllabus {

using Json = nlohmann::ordered_json;

// The parser would cut off and wrap round without a word.
template <class Number>
Number whole(const Json& json) {
    if (json.is_number_unsigned()) {
        if (const auto number = json.get<std::uint64_t>(); std::in_range<Number>(number))
            return static_cast<Number>(number);
    } else if (json.is_number_integer()) {
        if (const auto number = json.get<std::int64_t>(); std::in_range<Number>(number))
            return static_cast<Number>(number);
    }
    throw StoredFault("a number is none that a term can have");
}

inline const Json& list(const Json& json) {
    if (!json.is_array()) throw StoredFault("something else stands where a list should");
    return json;
}

inline Json write_notes(const music::NoteSet& notes) { return notes.midi_numbers(); }

inline music::NoteSet read_notes(const Json& json) {
    music::NoteSet notes;
    for (const Json& note : list(json)) {
        const int midi = whole<int>(note);
        if (midi < 0 || midi >= music::kMidiNotes) throw StoredFault("a note lies outside MIDI 0 to 127");
        notes.add(midi);
    }
    return notes;
}

}  // namespace syllabus
