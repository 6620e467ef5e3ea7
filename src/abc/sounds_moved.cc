#include "abc/sounds_moved.h"

#include <algorithm>

namespace abc {

namespace {

bool same_sounds(const music::Melody& before, const music::Melody& after) {
    return std::equal(before.sounds.begin(), before.sounds.end(), after.sounds.begin(), after.sounds.end(),
                      [](const music::Sound& a, const music::Sound& b) {
                          return a.kind == b.kind && a.head_count == b.head_count && a.first_head == b.first_head &&
                                 a.bar == b.bar && a.length == b.length && a.at == b.at;
                      });
}

bool same_bars(const music::Melody& before, const music::Melody& after) {
    return std::equal(before.bars.begin(), before.bars.end(), after.bars.begin(), after.bars.end(),
                      [](const music::Bar& a, const music::Bar& b) {
                          return a.first_sound == b.first_sound && a.length == b.length && a.meter == b.meter &&
                                 a.unit_rests == b.unit_rests && a.repeat_opens == b.repeat_opens &&
                                 a.repeat_closes == b.repeat_closes && a.thick_after == b.thick_after &&
                                 a.ending == b.ending;
                      });
}

bool melody_moved(const music::Melody& before, const music::Melody& after, int semitones) {
    return same_sounds(before, after) && same_bars(before, after) &&
           std::equal(before.heads.begin(), before.heads.end(), after.heads.begin(), after.heads.end(),
                      [&](const music::NoteHead& a, const music::NoteHead& b) {
                          return a.midi + semitones == b.midi && a.is_tied == b.is_tied;
                      });
}

}  // namespace

bool sounds_moved(const tune::Setting& before, const tune::Setting& after, int semitones) {
    return before.number == after.number && before.titles == after.titles && before.rhythm == after.rhythm &&
           before.texts == after.texts && before.part_order == after.part_order && before.meter == after.meter &&
           before.unit == after.unit && melody_moved(before.melody, after.melody, semitones) &&
           std::equal(before.others.begin(), before.others.end(), after.others.begin(), after.others.end(),
                      [&](const tune::OtherVoice& a, const tune::OtherVoice& b) {
                          return a.id == b.id && melody_moved(a.melody, b.melody, semitones);
                      });
}

}  // namespace abc
