#include "analysis/analyse.h"

#include "analysis/bar_shapes.h"
#include "analysis/key_finder.h"
#include "analysis/note_uses.h"
#include "analysis/rhythm_name.h"

namespace analysis {

tune::TuneFacts analyse(const tune::Setting& setting) {
    tune::TuneFacts facts;
    NoteUses notes = find_note_uses(setting.melody);
    facts.needed = notes.needed;
    facts.ornaments = notes.ornaments;
    facts.uses = std::move(notes.uses);
    facts.note_count = notes.note_count;
    facts.first_note = notes.first_note;
    facts.last_note = notes.last_note;
    const BarCount bars = count_bars(setting.melody);
    facts.bars = bars.written;
    facts.different_bars = bars.different;
    facts.meter = {setting.meter, setting.meter_is_stated ? tune::Basis::stated : tune::Basis::assumed};
    facts.rhythm = find_rhythm(setting.rhythm, setting.meter, setting.melody);
    facts.key = find_key(setting.melody);
    facts.melody_hash = hash_melody(setting.melody);
    return facts;
}

}  // namespace analysis
