#include "tune/record_facts.h"

#include <cstdlib>

namespace tune {

void put_facts(TuneRecord& record, const TuneFacts& facts) {
    record.rhythm = facts.rhythm;
    record.rhythm_possible = facts.rhythm_possible;
    record.meter = music::to_string(facts.meter.value);
    if (facts.key) {
        record.key = facts.key->headline();
        record.key_basis = facts.key->basis();
        record.key_candidates = facts.key->candidates;
        record.key_decided = facts.key->decided;
    }
    if (facts.leaps.largest) record.largest_leap = std::abs(facts.leaps.largest->to - facts.leaps.largest->from);
    record.part_keys = facts.differing_part_keys;
    record.needed = facts.needed;
    record.ornaments = facts.ornaments;
    record.note_count = facts.note_count;
    record.first_note = facts.first_note;
    record.last_note = facts.last_note;
    record.bars = facts.bars;
    record.different_bars = facts.different_bars;
    record.scrap = facts.scrap;
}

}  // namespace tune
