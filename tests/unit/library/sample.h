// Files and settings made by hand, as an import would hand them over.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "collection/stored_setting.h"
#include "library/content_hash.h"
#include "library/intake.h"
#include "library/library.h"
#include "music/note_set.h"

namespace sample {

inline music::NoteSet notes(std::initializer_list<int> midi) {
    music::NoteSet set;
    for (const int note : midi) set.add(note);
    return set;
}

// `melody` stands for the notes: settings of equal melodies have equal hashes and texts, but for number and title.
inline collection::StoredSetting setting(std::optional<std::string> number, std::string title, std::uint64_t melody,
                                         std::uint32_t line = 1) {
    collection::StoredSetting made;
    made.number = number;
    made.line = line;
    if (!title.empty()) made.titles.push_back(title);
    made.key_stated = "G major";
    made.facts.needed = notes({62, 67, 71});
    made.facts.note_count = 24;
    made.facts.first_note = 67;
    made.facts.last_note = 67;
    made.facts.bars = 8;
    made.facts.different_bars = 4;
    made.facts.melody_hash = melody;
    made.facts.key = tune::KeyFinding{{music::Key{{music::Letter::G, 0}, music::Mode::major}}, true, {}};
    made.abc = "X:" + number.value_or("") + "\nT:" + title + "\nK:G\nmelody " + std::to_string(melody) + "\n";
    return made;
}

// Lines are given to the settings in their order.
inline collection::StoredFile file(const std::string& path, std::vector<collection::StoredSetting> settings,
                                   std::string header = {}) {
    collection::StoredFile made;
    made.path = path;
    made.shown = path.substr(path.rfind('/') + 1);
    made.size = 100;
    made.mtime_ns = 1'000'000'000;
    made.imported_ns = 9'000'000'000;
    made.header = std::move(header);
    std::string bytes = made.header;
    std::uint32_t line = 1;
    for (collection::StoredSetting& one : settings) {
        one.line = line;
        line += 10;
        bytes += one.abc;
    }
    made.content_hash = library::content_hash(bytes);
    made.settings = std::move(settings);
    return made;
}

inline std::vector<tune::TuneRecord> all_settings(const library::Library& library) {
    collection::Selection everything;
    everything.settings = true;
    everything.sort = collection::Sort::file;
    return library.select_tunes(everything).rows;
}

// The id of the only present setting whose first title is `title`; 0 when there is none, -1 when there are several.
inline std::int64_t id_titled(const library::Library& library, const std::string& title) {
    std::int64_t id = 0;
    for (const tune::TuneRecord& record : all_settings(library))
        if (!record.titles.empty() && record.titles.front() == title) id = id == 0 ? record.id.value : -1;
    return id;
}

}  // namespace sample
