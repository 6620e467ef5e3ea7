#include "analysis/analyse.h"

#include "analysis/bar_shapes.h"
#include "analysis/key_finder.h"
#include "analysis/leaps.h"
#include "analysis/melody_class.h"
#include "analysis/note_uses.h"
#include "analysis/outline_of.h"
#include "analysis/part_keys.h"
#include "analysis/rhythm_name.h"
#include "analysis/scrap.h"
#include "analysis/structure.h"

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
    FoundRhythm rhythm = find_rhythm(setting);
    facts.rhythm = std::move(rhythm.rhythm);
    facts.rhythm_possible = std::move(rhythm.possible);
    facts.key = find_key(setting.melody, setting.key_in_force);
    facts.keys_in_turn = find_keys_in_turn(setting.melody);
    const std::vector<int> numbers = number_bars(setting.melody);
    facts.structure = find_structure(setting.melody, numbers);
    facts.equal_bars = equal_bars(facts.structure, numbers);
    facts.part_keys = find_part_keys(setting.melody, facts.structure, facts.key);
    facts.differing_part_keys = differing_part_keys(facts.part_keys, facts.key);
    facts.scrap = find_scrap(setting, facts);
    facts.leaps = find_leaps(setting.melody, numbers);
    facts.lone_notes = find_lone_notes(setting.melody, numbers);
    facts.outline = outline_of(setting.melody);
    facts.melody_class = melody_class(facts.outline);
    facts.melody_hash = hash_melody(setting.melody);
    return facts;
}

}  // namespace analysis
