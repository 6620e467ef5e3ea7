// Tested by check_test.cc.
#include "answers/check.h"

#include <algorithm>
#include <utility>

#include "answers/tunes_asked.h"
#include "answers/twins.h"

namespace answers {

namespace {

using tune::OddityKind;

// The settings the filters leave; without a filter also what belongs to none.
struct Asked {
    bool is_filtered = false;
    std::set<tune::SettingId> settings;

    bool holds(std::optional<tune::SettingId> setting) const {
        return !is_filtered || (setting && settings.contains(*setting));
    }
};

CheckedOddity oddity_of(const tune::TuneRecord& record, OddityKind kind) {
    CheckedOddity row;
    row.tune = record.id;
    row.title = record.titles.empty() ? "" : record.titles.front();
    row.file = record.file;
    row.line = record.line;
    row.kind = kind;
    row.severity = base::Severity::remark;
    row.advice = tune::oddity_advice(kind);
    return row;
}

void add_stored(const collection::Collection& collection, const Asked& asked, std::vector<CheckedOddity>& rows) {
    for (const collection::FoundOddity& found : collection.oddities()) {
        if (!asked.holds(found.setting)) continue;
        CheckedOddity& row = rows.emplace_back();
        row.tune = found.tune;
        row.title = found.title;
        row.file = found.file;
        row.line = found.oddity.line;
        row.column = found.oddity.column;
        row.kind = found.oddity.kind;
        row.severity = found.oddity.severity;
        row.message = found.oddity.message;
        row.advice = found.oddity.advice;
    }
}

// Those that are probably one tune (tune/likeness.h). Told of the later of the two, unless only the other was asked
// about.
void add_twins(const collection::Collection& collection, const Asked& asked, std::vector<CheckedOddity>& rows) {
    for (const Twin& twin : probable_twins(collection)) {
        auto one = collection.setting_of_own(twin.one);
        auto other = collection.setting_of_own(twin.other);
        if (!one || !other) continue;
        if (!asked.holds(other->setting)) std::swap(one, other);
        if (!asked.holds(other->setting)) continue;
        rows.push_back(oddity_of(*other, OddityKind::twin));
        rows.back().twin = FoundTwin{std::move(*one), twin.likeness, twin.one, twin.other};
    }
}

// `selection` as it was asked; of each tune the setting that comes nearest is judged.
void add_out_of_reach(const collection::Collection& collection, collection::Selection selection,
                      const music::NoteSet& reach, std::vector<CheckedOddity>& rows) {
    selection.nearest_to = reach;
    selection.sort = collection::Sort::file;
    for (const tune::TuneRecord& record : collection.select_tunes(selection).rows)
        if (const music::NoteSet outside = record.needed.without(reach); !outside.empty()) {
            rows.push_back(oddity_of(record, OddityKind::out_of_reach));
            rows.back().outside = outside;
            rows.back().fifths = tune::spelling_fifths(record);
        }
}

std::optional<music::NoteSet> reach_of(const TunesAsked& asked, const CheckQuestion& question) {
    if (question.reach) return asked.notes(Part::reach, *question.reach);
    if (const instruments::Instrument* instrument = asked.instrument()) return instrument->note_set();
    music::NoteSet everyone = music::every_note();
    if (!asked.players().empty())
        for (const planner::Member& member : asked.members()) everyone = everyone & member.reach;
    return everyone == music::every_note() ? std::nullopt : std::optional(everyone);
}

}  // namespace

std::int64_t CheckAnswer::matched() const {
    std::int64_t all = 0;
    for (const auto& [kind, count] : counts) all += count;
    return all;
}

CheckAnswer answer(const collection::Collection& collection, const CheckQuestion& question) {
    const TunesAsked asked_for(collection, question.filter);
    const auto holds = [&](OddityKind kind) { return !question.kinds || question.kinds->contains(kind); };
    const std::optional<music::NoteSet> reach = reach_of(asked_for, question);
    if (question.kinds && holds(OddityKind::out_of_reach) && !reach)
        throw Refused({Part::reach, Reason::outside_which});
    const collection::Selection selection = asked_for.selection(false);
    collection::Selection each = selection;
    each.settings = true;
    const collection::NotesAnswer found = collection.select_notes(each);
    Asked asked;
    asked.is_filtered = !found.why.empty();
    std::set<tune::TuneId> tunes;
    for (const collection::TuneNotes& one : found.rows) {
        asked.settings.insert(one.setting);
        tunes.insert(one.id);
    }
    std::vector<CheckedOddity> rows;
    add_stored(collection, asked, rows);
    if (holds(OddityKind::twin)) add_twins(collection, asked, rows);
    // What fits a player's notes is on the instrument: asked for by name, all tunes are looked at.
    const bool is_by_player = !asked_for.players().empty() && question.filter.fits.empty();
    if (reach)
        add_out_of_reach(collection, is_by_player ? asked_for.selection_without_notes() : selection, *reach, rows);
    const base::Severity least = question.least.value_or(base::Severity::remark);
    std::erase_if(rows, [&](const CheckedOddity& row) { return !holds(row.kind) || row.severity > least; });
    std::stable_sort(rows.begin(), rows.end(),
                     [](const CheckedOddity& a, const CheckedOddity& b) { return a.kind < b.kind; });
    CheckAnswer answer;
    answer.left_out_notes = asked_for.left_out();
    answer.settings_checked = found.matched;
    answer.tunes_checked = static_cast<std::int64_t>(tunes.size());
    if (!asked.is_filtered) answer.files_checked = collection.counts().files;
    for (CheckedOddity& row : rows)
        if (const std::int64_t met = ++answer.counts[row.kind]; !question.limit || met <= *question.limit)
            answer.rows.push_back(std::move(row));
    return answer;
}

}  // namespace answers
