// Tested by match_test.cc.
#include "answers/match.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "answers/tunes_asked.h"

namespace answers {

namespace {

// A line is one title, unless it is not surely that and each of its parts between commas surely is one.
std::vector<tune::TitleMatch> matches_of(const tune::TitleIndex& index, const std::string& line) {
    const auto is_sure = [](const tune::TitleMatch& match) { return match.kind == tune::MatchKind::matched; };
    const tune::TitleMatch whole = index.match(line);
    if (is_sure(whole) || line.size() > tune::kMaxWrittenBytes) return {whole};
    std::vector<tune::TitleMatch> parts;
    for (const std::string& part : index.split(line)) {
        parts.push_back(index.match(part));
        if (!is_sure(parts.back())) return {whole};
    }
    return parts.size() > 1 ? parts : std::vector{whole};
}

}  // namespace

std::int64_t unsettled(const MatchAnswer& answer) {
    return std::count_if(answer.lines.begin(), answer.lines.end(),
                         [](const MatchedLine& line) { return line.match.kind != tune::MatchKind::matched; });
}

MatchAnswer answer(const collection::Collection& collection, const MatchQuestion& question) {
    const TunesAsked asked(collection, question.filter);
    collection::Selection selection = asked.selection();
    MatchAnswer answer;
    answer.name = question.name;
    answer.left_out_notes = asked.left_out();
    answer.have = selection.notes_at_hand();
    selection.fits.reset();
    collection::Answer passing = collection.select_tunes(selection);
    answer.why = asked.sieves_of(passing);
    std::map<tune::TuneId, tune::TuneRecord> passes;
    for (tune::TuneRecord& record : passing.rows) passes.emplace(record.id, std::move(record));

    const tune::TitleIndex index(collection.titled_tunes());
    for (const tune::ListedTitle& listed : question.list)
        for (tune::TitleMatch& match : matches_of(index, listed.text)) {
            MatchedLine& line = answer.lines.emplace_back();
            line.line = listed.line;
            line.match = std::move(match);
            if (line.match.kind != tune::MatchKind::matched) continue;
            const tune::TuneId id = line.match.candidates.front().id;
            const auto passed = passes.find(id);
            line.is_left_out = passed == passes.end();
            line.tune = line.is_left_out ? collection.tune_by_id(id) : std::optional(passed->second);
        }
    return answer;
}

}  // namespace answers
