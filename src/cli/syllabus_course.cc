// What a term is asked for with becomes a course: players, tunes, wishes.
#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "abc/read.h"
#include "analysis/note_uses.h"
#include "answers/tunes_asked.h"
#include "base/source_file.h"
#include "cli/refusal_words.h"
#include "cli/syllabus_request.h"
#include "cli/term_words.h"
#include "cli/terminal.h"
#include "cli/tune_or_tell.h"
#include "repertoire/evening.h"
#include "report/words.h"
#include "syllabus/hardness.h"
#include "tune/title.h"

namespace cli {

namespace {

constexpr std::int64_t kMostAskedFor = 1'000'000;  // a count beyond weighs no more, so that sums stay exact

std::vector<tune::NoteUse> uses_of(const collection::Collection& library, tune::SettingId setting) {
    const auto kept = library.abc_of(setting);
    if (!kept) return {};
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(base::SourceFile(kept->file, kept->text), unheard);
    return settings.empty() ? std::vector<tune::NoteUse>() : analysis::find_note_uses(settings.back().melody).uses;
}

// A tune whose rhythm has no beat to count is taken as a reel, so that the minutes are not too few.
int seconds_to_play(const collection::Collection& library, const tune::TuneRecord& record) {
    const auto outline = library.outline_of(record.setting);
    auto shape = outline ? repertoire::shape_of(record, *outline) : std::nullopt;
    if (!shape) return 0;
    if (!repertoire::pace_of(shape->rhythm)) shape->rhythm = "reel";
    repertoire::EveningGoal goal;
    goal.times = syllabus::kTimesThrough;
    return repertoire::seconds_of(*shape, goal).value_or(0);
}

syllabus::CourseTune course_tune(const collection::Collection& library, const tune::TuneRecord& record,
                                 bool ornaments) {
    syllabus::CourseTune one;
    one.tune.id = record.id;
    one.tune.title = tune::title_of(record);
    if (const auto rhythm = tune::danced_rhythm(record)) one.tune.rhythm = rhythm->value;
    one.tune.needed = ornaments ? record.needed | record.ornaments : record.needed;
    one.tune.hardness = syllabus::hardness_of(one.tune.needed, record.largest_leap, record.different_bars);
    one.tune.seconds = seconds_to_play(library, record);
    one.asked_for = std::min(record.count.value_or(0), kMostAskedFor);
    return one;
}

// A note to begin with must be there on all instruments; one that all have already is told.
void look_at_first(syllabus::Course& course) {
    music::NoteSet reach = music::every_note(), common = music::every_note();
    for (const planner::Member& player : course.players) {
        reach = reach & player.reach;
        common = common & player.have;
    }
    music::NoteSet out, had;
    for (const int midi : course.first) {
        if (common.has(midi))
            had.add(midi);
        else if (!reach.has(midi))
            out.add(midi);
    }
    if (!out.empty()) throw Misuse("--first: " + report::note_list(out) + ": not on everyone's instrument");
    if (!had.empty())
        course.remarks.push_back(report::note_list(had) + " of --first " + (had.size() == 1 ? "is" : "are") +
                                 " there from the start.");
}

// Who knows a tune: "Ina knows it", "Ina and Uli know it".
std::vector<std::pair<tune::TuneId, std::string>> known_in_words(
    const std::vector<std::pair<tune::TuneId, std::vector<std::string>>>& known_by) {
    std::vector<std::pair<tune::TuneId, std::string>> known;
    for (const auto& [id, names] : known_by) {
        std::string words;
        for (std::size_t at = 0; at < names.size(); ++at)
            words += (at == 0 ? "" : at + 1 == names.size() ? " and " : ", ") + names[at];
        known.emplace_back(id,
                           words + (names.size() == 1 ? " knows it or is learning it" : " know it or are learning it"));
    }
    return known;
}

// Two tunes of one title are most often one tune that nobody has said to be one (gamut same): a class learns the one
// that lacks fewest notes, then the easier. What a teacher insists on stays.
void keep_one_of_each_title(syllabus::Course& course) {
    music::NoteSet common = course.players.front().have;
    for (const planner::Member& player : course.players) common = common & player.have;
    std::set<tune::TuneId> named(course.begin.begin(), course.begin.end());
    for (const syllabus::Must& must : course.musts) named.insert(must.id);
    const auto rank = [&](const syllabus::CourseTune& one) {
        return std::tuple(!named.contains(one.tune.id), one.tune.needed.without(common).size(), one.tune.hardness,
                          one.tune.id);
    };
    std::map<std::string, std::size_t> best;
    for (std::size_t at = 0; at < course.tunes.size(); ++at) {
        const std::string title = tune::fold_title(course.tunes[at].tune.title);
        const auto [place, is_new] = best.try_emplace(title, at);
        if (!is_new && rank(course.tunes[at]) < rank(course.tunes[place->second])) place->second = at;
    }
    for (std::size_t at = 0; at < course.tunes.size(); ++at) {
        const syllabus::TermTune& tune = course.tunes[at].tune;
        course.tunes[at].may_come =
            tune.title == tune::kNoTitle || best.at(tune::fold_title(tune.title)) == at || named.contains(tune.id);
    }
}

}  // namespace

syllabus::Course SyllabusRequest::course(const collection::Collection& library, const TermSoFar& so_far,
                                         std::vector<std::string>& missing) const {
    syllabus::Course course;
    if (filter_.asks_for_missing()) throw Misuse("a term brings what is missing by itself; leave out --missing");
    const answers::Filter filter = filter_.filter();
    const answers::TunesAsked asked(library, filter);
    course.players = players(asked);
    for (planner::Member& player : course.players) player.have = player.have.without(so_far.undone);
    course.pace = pace();
    course.max_states = max_states();
    if (first_)
        course.first = answers::read_part(answers::Part::first, *first_, [&](const std::string& text) {
            std::vector<int> order;
            for (const music::NoteItem& item : music::read_notes_in_order(text, asked.compass()))
                for (const int midi : item.notes.midi_numbers()) order.push_back(midi);
            return order;
        });
    look_at_first(course);
    collection::Selection selection = asked.selection_without_notes();
    if (selection.settings) throw Misuse("a term teaches tunes and not settings; leave out --settings");
    music::NoteSet common = course.players.front().have;
    for (const planner::Member& player : course.players) common = common & player.have;
    selection.nearest_to = common;
    const std::vector<tune::TuneId> settled = asked.settled_for_players();
    const std::map<tune::TuneId, std::int64_t> wishes = asked.wishes_of_players();
    tell_left_out(asked.left_out());
    course.known_by = known_in_words(asked.known_by_players());
    std::erase_if(course.known_by, [&](const auto& known) { return so_far.own.contains(known.first); });
    std::vector<tune::SettingId> settings;
    const auto add = [&](const tune::TuneRecord& record) {
        syllabus::CourseTune one = course_tune(library, record, filter.columns.ornaments);
        if (one.tune.needed.empty()) return;
        if (const auto wish = wishes.find(record.id); wish != wishes.end()) one.asked_for += wish->second;
        course.tunes.push_back(std::move(one));
        settings.push_back(record.setting);
    };
    const auto named = [&](const std::string& option, const std::string& which) {
        std::optional<tune::TuneRecord> record = tune_or_tell(library, which);
        if (record && library.settings_of(record->id).empty()) {
            if (!so_far.is_planned_again) throw Misuse(option + " \"" + which + "\": the file of that tune is gone");
            if (!so_far.given.contains(record->id))
                missing.push_back("\"" + tune::title_of(*record) + "\" cannot come: its file is gone.");
            record.reset();
        }
        return record;
    };
    std::set<tune::TuneId> without;
    for (const std::string& which : without_)
        if (const auto record = tune_or_tell(library, which)) without.insert(record->id);
    std::int64_t left_out = 0;
    const collection::Answer answer = library.select_tunes(selection);
    for (const tune::TuneRecord& record : answer.rows) {
        if (without.contains(record.id)) continue;
        if (std::binary_search(settled.begin(), settled.end(), record.id) && !so_far.own.contains(record.id))
            ++left_out;
        else
            add(record);
    }
    if (const std::int64_t scraps = answer.back_without("scraps"); scraps > 0)
        course.remarks.push_back(report::scraps_in_words(scraps));
    if (left_out > 0)
        course.remarks.push_back(report::counted(left_out, "tune is", "tunes are") +
                                 " left out that the players know already, are learning or will not learn.");
    const auto require = [&](const std::string& option, const tune::TuneRecord& record) {
        const auto has = [&] {
            return std::any_of(course.tunes.begin(), course.tunes.end(),
                               [&](const syllabus::CourseTune& one) { return one.tune.id == record.id; });
        };
        if (without.contains(record.id))
            throw Misuse(option + " and --without both name \"" + tune::title_of(record) + "\"; which of them?");
        if (!has()) add(record);
        if (!has()) throw Misuse(option + ": no note sounds in \"" + tune::title_of(record) + "\"");
    };
    for (const std::string& which : begin_) {
        const auto record = named("--begin", which);
        if (!record || std::find(course.begin.begin(), course.begin.end(), record->id) != course.begin.end()) continue;
        require("--begin", *record);
        course.begin.push_back(record->id);
    }
    for (const std::string& text : musts_) {
        const MustWords must = read_must(text);
        const auto record = named("--must", must.title);
        if (!record) continue;
        require("--must", *record);
        if (must.by_lesson > lessons_)
            throw Misuse("--must: the term has " + std::to_string(lessons_) + " lessons, not " +
                         std::to_string(*must.by_lesson));
        if (std::any_of(course.musts.begin(), course.musts.end(),
                        [&](const syllabus::Must& other) { return other.id == record->id; }))
            throw Misuse("--must names \"" + tune::title_of(*record) + "\" twice; once is enough");
        course.musts.push_back({record->id, must.by_date, must.by_lesson});
    }
    keep_one_of_each_title(course);
    course.uses_of = [&library, settings](std::size_t at) { return uses_of(library, settings[at]); };
    return course;
}

}  // namespace cli
