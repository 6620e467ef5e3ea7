// Tested by tunebook_test.cc.
#include "answers/tunebook.h"

#include <cstdlib>
#include <utility>

#include "abc/codes.h"
#include "abc/collected.h"
#include "abc/moved.h"
#include "abc/read.h"
#include "abc/sounds_moved.h"
#include "analysis/analyse.h"
#include "answers/said_key.h"
#include "answers/tune_named.h"
#include "answers/tunes_asked.h"
#include "base/source_file.h"
#include "base/utf8.h"
#include "hands/move.h"

namespace answers {

namespace {

tune::Setting last_setting(const base::SourceFile& source) {
    base::Diagnostics unheard;
    auto settings = abc::read_settings(source, unheard);
    return settings.empty() ? tune::Setting() : std::move(settings.back());
}

std::vector<tune::TuneRecord> chosen(const TunesAsked& asked, const TunebookQuestion& question,
                                     TunebookAnswer& answer) {
    if (question.which.empty()) return asked.collection().select_tunes(asked.selection(!question.moves_best)).rows;
    std::vector<tune::TuneRecord> records;
    for (const std::string& which : question.which) {
        try {
            records.push_back(tune_named(asked.collection(), which));
        } catch (const Refused& refused) {
            if (refused.refusal().reason != Reason::unknown_tune) throw;
            answer.not_found.push_back(refused.refusal());
        }
    }
    return records;
}

// Nothing where no move makes it fit.
std::optional<hands::Move> best_move(const tune::Setting& setting, const tune::TuneRecord& record,
                                     const instruments::Instrument& instrument) {
    const tune::TuneFacts facts = with_said_key(analysis::analyse(setting), record);
    const auto key = facts.key ? std::optional(facts.key->headline()) : std::nullopt;
    const hands::Move best = hands::rank_moves(facts.uses, key, instrument).front();
    return best.missing == 0 ? std::optional(best) : std::nullopt;
}

// `polkas.abc:31, moved up 3 semitones, hardest note of grade 2`.
std::string where_from(const collection::AbcText& kept, int move, const std::optional<hands::Move>& best) {
    std::string from = kept.file + ":" + std::to_string(kept.line);
    if (move != 0)
        from += std::string(", moved ") + (move > 0 ? "up " : "down ") + std::to_string(std::abs(move)) +
                (std::abs(move) == 1 ? " semitone" : " semitones");
    if (best && best->hardest_grade > 0) from += ", hardest note of grade " + std::to_string(best->hardest_grade);
    return from;
}

// True where the tune now stands in the book.
bool add(const TunesAsked& asked, const TunebookQuestion& question, const tune::TuneRecord& record,
         TunebookAnswer& answer) {
    const auto note = [&](BookRemark what, std::string why = {}, std::string file = {}, std::uint32_t line = 1) {
        answer.notes.push_back({record, what, std::move(why), std::move(file), line});
        return false;
    };
    const auto kept = asked.collection().abc_of(record.setting);
    if (!kept) return note(BookRemark::not_kept);
    const base::SourceFile source(kept->file, kept->text);
    const tune::Setting setting = last_setting(source);
    const std::optional<hands::Move> best =
        question.moves_best ? best_move(setting, record, *asked.instrument()) : std::nullopt;
    if (question.moves_best && !best) return note(BookRemark::never_fits);
    const int move = best ? best->semitones : question.semitones;
    const base::SourceFile alone(kept->file, abc::collected(source, static_cast<int>(answer.tunes) + 1,
                                                            base::printable(where_from(*kept, move, best))));
    base::Diagnostics hindrances;
    std::string text = abc::moved(alone, move, hindrances);
    tune::Setting again = last_setting(base::SourceFile(kept->file, text));
    again.number = setting.number;  // the one thing that was to change
    if (!abc::sounds_moved(setting, again, move)) {
        std::string why;
        for (const base::Diagnostic& found : hindrances.kept()) why = found.message;
        return note(BookRemark::sounds_wrong, std::move(why));
    }
    for (const base::Diagnostic& found : hindrances.kept())
        if (found.code == abc::code::kChordLeftOut.token)
            note(BookRemark::chord_lost, found.message, kept->file, kept->line);
    answer.abc += text;
    ++answer.tunes;
    return true;
}

}  // namespace

TunebookAnswer answer(const collection::Collection& collection, const TunebookQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    if (question.moves_best && asked.instrument() == nullptr) throw Refused({Part::move, Reason::best_for_which});
    TunebookAnswer answer;
    const std::vector<tune::TuneRecord> records = chosen(asked, question, answer);
    answer.left_out_notes = asked.left_out();
    answer.asked_for = static_cast<std::int64_t>(records.size() + answer.not_found.size());
    for (const tune::TuneRecord& record : records) add(asked, question, record, answer);
    return answer;
}

}  // namespace answers
