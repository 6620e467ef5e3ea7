// Tested by notes_at_hand_test.cc.
#include "repertoire/notes_at_hand.h"

namespace repertoire {

music::NoteSet notes_at_hand(const tune::Player& player, std::span<const music::NoteSet> known,
                             const instruments::Instrument* instrument) {
    music::NoteSet notes = player.notes.value_or(music::NoteSet());
    for (const music::NoteSet& needed : known) notes = notes | needed;
    return instrument ? notes & instrument->note_set() : notes;
}

}  // namespace repertoire
