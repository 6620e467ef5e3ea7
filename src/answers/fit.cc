// Tested by fit_test.cc.
#include "answers/fit.h"

#include "answers/tunes_asked.h"
#include "hands/move.h"
#include "hands/near_miss.h"
#include "instruments/known.h"

namespace answers {

FitAnswer answer(const collection::Collection& collection, const FitQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    FitAnswer answer;
    if (const instruments::Instrument* one = asked.instrument())
        answer.rows.push_back({std::make_shared<const instruments::Instrument>(*one)});
    else
        for (const std::string& id : instruments::ids())
            answer.rows.push_back({instruments::lent(*instruments::find(id))});
    const collection::NotesAnswer found = collection.select_notes(asked.selection(false));
    answer.left_out_notes = asked.left_out();
    for (const collection::TuneNotes& tune : found.rows)
        if (!tune.needed.empty()) ++answer.tunes;
    for (InstrumentFit& row : answer.rows) {
        const music::NoteSet have = row.instrument->note_set();
        const music::NoteSet easy = row.instrument->up_to_grade(kEasyGrade).note_set();
        for (const collection::TuneNotes& tune : found.rows) {
            if (tune.needed.empty()) continue;
            const bool fits = tune.needed.is_within(have);
            row.now += fits ? 1 : 0;
            row.easy += tune.needed.is_within(easy) ? 1 : 0;
            row.folded += fits || hands::fits_folded(tune.needed, have) ? 1 : 0;
            row.moved += fits || hands::fits_moved(tune.needed, have) ? 1 : 0;
        }
    }
    return answer;
}

}  // namespace answers
