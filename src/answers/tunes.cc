// Tested by tunes_test.cc.
#include "answers/tunes.h"

#include <algorithm>
#include <utility>

#include "analysis/rank_heard.h"
#include "analysis/rhythm_words.h"
#include "answers/tunes_asked.h"
#include "tune/outline.h"

namespace answers {

namespace {

std::string_view begins_token(analysis::Begins begins) {
    switch (begins) {
        case analysis::Begins::tune:
            return "tune";
        case analysis::Begins::part:
            return "part";
        case analysis::Begins::within:
            break;
    }
    return "within";
}

// Puts the settings in which the phrase is found into `selection`, the best first, and says where it is in each.
std::map<tune::SettingId, HeardAt> find_heard(const collection::Collection& collection, const TunesQuestion& question,
                                              collection::Selection& selection) {
    std::map<tune::SettingId, HeardAt> where;
    selection.goes.emplace();
    try {
        analysis::HeardRanking ranking(*question.heard, question.at_start);
        collection.visit_outlines([&](const collection::StoredOutline& stored) {
            if (const auto outline = tune::decode_outline(stored.bytes))
                ranking.look_at(stored.setting.value, *outline);
        });
        for (const analysis::HeardSetting& heard :
             ranking.rank([&](std::int64_t setting) { return collection.outline_of({setting}); })) {
            const analysis::Hit& hit = heard.place.hit;
            selection.goes->push_back({heard.setting});
            where[{heard.setting}] = {hit.errors, hit.bar, begins_token(hit.begins), hit.semitones};
        }
    } catch (const analysis::HeardFault& fault) {
        throw Refused({Part::heard, Reason::in_words, fault.what()});
    }
    return where;
}

}  // namespace

std::string title_beside_rhythm(const tune::TuneRecord& record) {
    std::string title = tune::title_of(record);
    const std::size_t dashes = title.rfind(" -- ");
    if (!record.rhythm || dashes == std::string::npos || dashes == 0) return title;
    std::string behind = title.substr(dashes + 4);
    const std::size_t comma = behind.find(", ");  // an article that was moved to the end
    const std::string article = comma == std::string::npos ? "" : behind.substr(comma);
    behind.resize(std::min(comma, behind.size()));
    while (!behind.empty() && (behind.back() == '.' || behind.back() == ' ')) behind.pop_back();
    return analysis::rhythm_token(behind) == record.rhythm->value ? title.substr(0, dashes) + article : title;
}

TunesAnswer answer(const collection::Collection& collection, const TunesQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    collection::Selection selection = asked.selection();
    TunesAnswer answer;
    if (question.heard) {
        answer.heard = find_heard(collection, question, selection);
        if (!question.is_sorted) selection.sort = collection::Sort::heard;
        if (!selection.limit) selection.limit = kRowsByEar;
    }
    const bool is_long = !question.heard && !selection.limit && !narrows(question.filter);
    if (is_long) selection.limit = question.screenful;
    collection::Answer found = collection.select_tunes(selection);
    answer.is_screenful = is_long && static_cast<std::int64_t>(found.rows.size()) < found.matched;
    answer.have = selection.notes_at_hand();
    answer.by_setting = selection.settings;
    answer.matched = found.matched;
    answer.left_out = found.left_out;
    answer.gone = found.gone;
    answer.why = asked.sieves_of(found);
    answer.open_keys = found.open_keys;
    answer.rows = std::move(found.rows);
    answer.left_out_notes = asked.left_out();
    return answer;
}

}  // namespace answers
