// Tested by tune_test.cc.
#include "answers/tune.h"

#include <utility>

#include "abc/read.h"
#include "analysis/analyse.h"
#include "answers/player_named.h"
#include "answers/said_key.h"
#include "answers/tune_named.h"
#include "answers/twins.h"
#include "base/source_file.h"
#include "hands/near_miss.h"

namespace answers {

namespace {

std::optional<InHand> in_hand(const collection::Collection& collection, const TuneQuestion& question,
                              const tune::Setting& setting, const tune::TuneFacts& facts,
                              std::vector<LeftOutNotes>& left_out) {
    if (question.instrument == nullptr && !question.have) return std::nullopt;
    InHand in_hand{question.instrument, question.have.value_or(""), {}};
    if (question.have) {
        const music::NoteSet have =
            notes_asked(Part::have, *question.have, question.instrument.get(), names_in(collection), left_out);
        if (question.instrument == nullptr) {
            in_hand.handling.near_miss = hands::find_near_miss(hands::line_of(setting.melody), have);
            return in_hand;
        }
        in_hand.instrument = std::make_shared<const instruments::Instrument>(question.instrument->only(have));
    }
    if (question.any_ways)
        in_hand.instrument = std::make_shared<const instruments::Instrument>(in_hand.instrument->with_any_ways());
    in_hand.handling = hands::handle(setting.melody, facts, *in_hand.instrument);
    return in_hand;
}

std::vector<SaidOf> said_of_settings(const collection::Collection& collection, tune::TuneId id) {
    std::vector<SaidOf> said;
    for (const collection::Verdict& verdict : collection.verdicts()) {
        auto one = collection.setting_of_own(verdict.one);
        auto other = collection.setting_of_own(verdict.other);
        if (one && other && (one->id == id || other->id == id))
            said.push_back({std::move(*one), std::move(*other), verdict.is_same});
    }
    return said;
}

}  // namespace

// The facts of a setting are made again from its own text, which the collection keeps.
TuneAnswer answer(const collection::Collection& collection, const TuneQuestion& question) {
    TuneAnswer answer;
    answer.record = tune_named(collection, question.which);
    answer.settings = collection.settings_of(answer.record.id);
    for (const Twin& twin : probable_twins_of(collection, answer.record))
        if (auto other = collection.setting_of_own(twin.other))
            answer.kin.push_back({std::move(*other), twin.likeness});
    answer.said = said_of_settings(collection, answer.record.id);
    const auto kept = collection.abc_of(answer.record.setting);
    if (!kept) return answer;
    answer.is_gone = kept->gone;
    answer.abc = kept->text;
    const base::SourceFile source(kept->file, kept->text);
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(source, unheard);
    if (settings.empty()) return answer;
    answer.facts = analysis::analyse(settings.back());
    answer.in_hand = in_hand(collection, question, settings.back(), with_said_key(answer.facts, answer.record),
                             answer.left_out_notes);
    return answer;
}

}  // namespace answers
