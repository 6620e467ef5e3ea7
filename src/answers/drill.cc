// Tested by drill_test.cc.
#include "answers/drill.h"

#include <set>

#include "abc/written_bar.h"
#include "answers/player_named.h"
#include "music/key.h"
#include "music/pitch.h"

namespace answers {

namespace {

std::string names_of(const music::NoteSet& notes, int fifths) {
    std::string names;
    for (const int midi : notes.midi_numbers())
        names += (names.empty() ? "" : " ") + music::to_string(music::spell_midi(midi, fifths));
    return names;
}

std::string abc_of(const DrillAnswer& answer) {
    const std::string what = answer.fresh.empty() ? "Notes" : names_of(answer.fresh, answer.fifths);
    std::string text =
        "X:1\nT:Drill: " + what + "\nM:4/4\nL:1/4\nK:" + music::to_string(music::name_at_fifths(answer.fifths)) + "\n";
    for (const hands::Passage& passage : answer.drill) {
        text += "P:" + title_of(answer, passage) + "\n";
        for (std::size_t bar = 0; bar < passage.bars.size(); ++bar)
            text += abc::written_bar(passage.bars[bar], answer.fifths) + (bar + 1 == passage.bars.size() ? " |]\n"
                                                                          : bar % 4 == 3                 ? " |\n"
                                                                                                         : " | ");
    }
    return text;
}

}  // namespace

std::string title_of(const DrillAnswer& answer, const hands::Passage& passage) {
    if (passage.kind == hands::Passage::Kind::up_and_down) return "Up and down";
    return music::to_string(music::spell_midi(passage.about, answer.fifths)) + " in its place";
}

DrillQuestion drill_for(const collection::Collection& collection, const std::string& player, DrillQuestion question) {
    const bool asks_for_notes = question.have.empty();
    std::set<const instruments::Instrument*> in_hands;
    if (asks_for_notes) question.have = music::every_note();
    for (const std::string& name : players_meant(collection, {player}).names) {
        const collection::PlayerRecord record = player_named(collection, name);
        if (asks_for_notes) question.have = question.have & some_notes_of(collection, record);
        in_hands.insert(instrument_of(record.player));
    }
    if (question.have.empty()) throw Refused({Part::players, Reason::no_note_in_common});
    if (const instruments::Instrument* own = *in_hands.begin(); in_hands.size() == 1 && own && !question.instrument)
        question.instrument = std::make_shared<const instruments::Instrument>(*own);
    return question;
}

DrillAnswer answer(const DrillQuestion& question) {
    DrillAnswer answer;
    answer.fresh = question.fresh;
    answer.have = question.have.without(question.fresh);
    answer.instrument = question.instrument;
    const music::NoteSet all = answer.have | answer.fresh;
    answer.fifths = abc::plainest_signature(all.midi_numbers());
    answer.drill = hands::make_drill(all, answer.fresh, answer.fifths);
    answer.abc = abc_of(answer);
    return answer;
}

}  // namespace answers
