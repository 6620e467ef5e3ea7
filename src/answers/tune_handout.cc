// Tested by tune_handout_test.cc.
#include "answers/tune_handout.h"

#include "abc/read.h"
#include "analysis/analyse.h"
#include "answers/player_named.h"
#include "answers/said_key.h"
#include "answers/tune_named.h"
#include "base/source_file.h"
#include "hands/handling.h"
#include "repertoire/pace.h"

namespace answers {

namespace {

// Notes, instrument and name of whom it is for.
void read_reader(const collection::Collection& collection, const HandoutReader& reader, TuneHandout& handout) {
    handout.instrument = reader.instrument;
    if (reader.player) {
        const collection::PlayerRecord record = player_named(collection, *reader.player);
        handout.player = record.player.name.text;
        if (const instruments::Instrument* own = instrument_of(record.player); own && !handout.instrument)
            handout.instrument = std::make_shared<const instruments::Instrument>(*own);
        if (const music::NoteSet notes = notes_of(collection, record); !notes.empty()) handout.have = notes;
    }
    const music::NamedNotes named = names_in(collection);
    const auto asked = [&](Part part, const std::string& text) {
        return notes_asked(part, text, handout.instrument.get(), named, handout.left_out_notes);
    };
    if (reader.have) handout.have = asked(Part::have, *reader.have);
    if (reader.fresh) handout.fresh = asked(Part::fresh, *reader.fresh);
}

}  // namespace

int taps_in_bar(const std::string& rhythm, const std::string& meter) {
    if (meter.empty() || meter == "none") return 0;
    if (const auto pace = repertoire::pace_of(rhythm)) return repertoire::beats_in_bar(*pace, meter);
    if (meter == "6/8" || meter == "2/4" || meter == "2/2") return 2;
    if (meter == "9/8" || meter == "3/4" || meter == "3/2") return 3;
    if (meter == "12/8" || meter == "4/4") return 4;
    if (meter == "3/8") return 1;
    return 0;
}

TuneHandout tune_handout(const collection::Collection& collection, const std::string& which,
                         const HandoutReader& reader) {
    TuneHandout handout;
    handout.record = tune_named(collection, which);
    const auto kept = collection.abc_of(handout.record.setting);
    base::Diagnostics unheard;
    const auto settings =
        kept ? abc::read_settings(base::SourceFile(kept->file, kept->text), unheard) : std::vector<tune::Setting>();
    if (settings.empty() || handout.record.needed.empty())
        throw Refused({Part::tune, Reason::no_note, tune::title_of(handout.record), {}, {}, {}});
    const tune::Setting& setting = settings.back();
    handout.facts = with_said_key(analysis::analyse(setting), handout.record);
    read_reader(collection, reader, handout);

    const music::NoteSet needed = handout.facts.needed;
    if (!reader.fresh && handout.have) handout.fresh = needed.without(*handout.have);
    handout.fresh = handout.fresh & needed;
    handout.fifths = tune::spelling_fifths(handout.record);
    const auto danced = tune::danced_rhythm(handout.record);
    handout.is_rhythm_sure = !danced || !tune::is_guess(danced->basis);
    handout.taps = taps_in_bar(danced ? danced->value : std::string(), handout.record.meter);
    if (handout.instrument == nullptr) {
        handout.blocks = blocks_of(setting.melody, handout.facts, nullptr);
        return handout;
    }
    handout.lacking = needed.without(handout.instrument->note_set());
    const hands::Handling handling = hands::handle(setting.melody, handout.facts, *handout.instrument);
    handout.blocks = blocks_of(setting.melody, handout.facts, &handling.way);
    if (handling.hardest) handout.hardest_bar = handling.hardest->bar;
    return handout;
}

}  // namespace answers
