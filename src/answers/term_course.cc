// Tested by term_course_test.cc.
#include "answers/term_course.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "abc/read.h"
#include "analysis/note_uses.h"
#include "answers/tune_named.h"
#include "answers/tunes_asked.h"
#include "base/source_file.h"
#include "repertoire/evening.h"
#include "syllabus/hardness.h"
#include "tune/title.h"

namespace answers {

namespace {

constexpr std::int64_t kMostAskedFor = 1'000'000;  // a count beyond weighs no more, so that sums stay exact

std::vector<tune::NoteUse> uses_of(const collection::Collection& collection, tune::SettingId setting) {
    const auto kept = collection.abc_of(setting);
    if (!kept) return {};
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(base::SourceFile(kept->file, kept->text), unheard);
    return settings.empty() ? std::vector<tune::NoteUse>() : analysis::find_note_uses(settings.back().melody).uses;
}

// A tune whose rhythm has no beat to count is taken as a reel, so that the minutes are not too few.
int seconds_to_play(const collection::Collection& collection, const tune::TuneRecord& record) {
    const auto outline = collection.outline_of(record.setting);
    auto shape = outline ? repertoire::shape_of(record, *outline) : std::nullopt;
    if (!shape) return 0;
    if (!repertoire::pace_of(shape->rhythm)) shape->rhythm = "reel";
    repertoire::EveningGoal goal;
    goal.times = syllabus::kTimesThrough;
    return repertoire::seconds_of(*shape, goal).value_or(0);
}

syllabus::CourseTune course_tune(const collection::Collection& collection, const tune::TuneRecord& record,
                                 bool ornaments) {
    syllabus::CourseTune one;
    one.tune.id = record.id;
    one.tune.title = tune::title_of(record);
    if (const auto rhythm = tune::danced_rhythm(record)) one.tune.rhythm = rhythm->value;
    one.tune.needed = ornaments ? record.needed | record.ornaments : record.needed;
    one.tune.hardness = syllabus::hardness_of(one.tune.needed, record.largest_leap, record.different_bars);
    one.tune.seconds = seconds_to_play(collection, record);
    one.asked_for = std::min(record.count.value_or(0), kMostAskedFor);
    return one;
}

std::vector<planner::Member> players_of(const TunesAsked& asked, const TermRequest& request,
                                        const std::vector<syllabus::NewNotes>& undone) {
    std::vector<planner::Member> players = asked.members();
    if (request.have && !players.empty()) throw Refused({Part::have, Reason::have_or_players});
    if (request.have) {
        const instruments::Instrument* instrument = asked.instrument();
        players.push_back(
            {"", asked.notes(Part::have, *request.have), instrument ? instrument->note_set() : music::every_note()});
    }
    if (players.empty()) throw Refused({Part::have, Reason::whose_notes});
    const auto was_to_learn = [](const syllabus::NewNotes& lost, const std::string& name) {
        return lost.learners.empty() ||
               std::find(lost.learners.begin(), lost.learners.end(), name) != lost.learners.end();
    };
    for (planner::Member& player : players)
        for (const syllabus::NewNotes& lost : undone)
            if (was_to_learn(lost, player.name)) player.have = player.have.without(lost.notes);
    return players;
}

// A note to begin with must be there on all instruments; one that all have already is told.
std::vector<int> first_notes(const TunesAsked& asked, const std::string& text, const syllabus::Course& course,
                             music::NoteSet& had) {
    const std::vector<int> order = read_part(Part::first, text, [&](const std::string& written) {
        std::vector<int> notes;
        for (const music::NoteItem& item : music::read_notes_in_order(written, asked.compass()))
            for (const int midi : item.notes.midi_numbers()) notes.push_back(midi);
        return notes;
    });
    music::NoteSet reach = music::every_note(), common = music::every_note(), out;
    for (const planner::Member& player : course.players) {
        reach = reach & player.reach;
        common = common & player.have;
    }
    for (const int midi : order) {
        if (common.has(midi))
            had.add(midi);
        else if (!reach.has(midi))
            out.add(midi);
    }
    if (out.empty()) return order;
    Refusal refusal{Part::first, Reason::not_for_everyone};
    refusal.notes = out;
    throw Refused(std::move(refusal));
}

// Two tunes of one title are most often one tune that nobody has said to be one: a class learns the one that lacks
// fewest notes, then the easier. What a teacher insists on stays.
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

// Puts the tunes of a term together, those that pass and those that are insisted on.
class CourseMaker {
public:
    CourseMaker(const TunesAsked& asked, const TermRequest& request, const TermSoFar& so_far, TermCourse& made)
        : asked_(asked),
          request_(request),
          so_far_(so_far),
          made_(made),
          course_(made.course),
          wishes_(asked.wishes_of_players()) {}

    void add_those_that_pass() {
        for (const std::string& which : request_.without)
            if (const auto record = named(which)) without_.insert(record->id);
        collection::Selection selection = asked_.selection_without_notes();
        music::NoteSet common = course_.players.front().have;
        for (const planner::Member& player : course_.players) common = common & player.have;
        selection.nearest_to = common;
        const std::vector<tune::TuneId> settled = asked_.settled_for_players();
        const collection::Answer found = asked_.collection().select_tunes(selection);
        made_.scraps = found.back_without(collection::FilterBy::scraps);
        for (const tune::TuneRecord& record : found.rows) {
            if (without_.contains(record.id)) continue;
            if (std::binary_search(settled.begin(), settled.end(), record.id) && !so_far_.own.contains(record.id))
                ++made_.known;
            else
                add(record);
        }
    }

    void add_those_to_begin_with() {
        for (const std::string& which : request_.begin) {
            const auto record = there(Part::begin, which);
            if (!record || std::find(course_.begin.begin(), course_.begin.end(), record->id) != course_.begin.end())
                continue;
            require(Part::begin, *record);
            course_.begin.push_back(record->id);
        }
    }

    void add_those_that_must_come() {
        const int lessons = request_.lessons.value_or(syllabus::TermDates().lessons);
        for (const TermRequest::Must& must : request_.musts) {
            const auto record = there(Part::must, must.tune);
            if (!record) continue;
            require(Part::must, *record);
            if (must.by_lesson > lessons)
                throw Refused(
                    {Part::must, Reason::beyond_term, std::to_string(*must.by_lesson), {std::to_string(lessons)}});
            if (std::any_of(course_.musts.begin(), course_.musts.end(),
                            [&](const syllabus::Must& other) { return other.id == record->id; }))
                throw Refused({Part::must, Reason::named_twice, tune::title_of(*record)});
            course_.musts.push_back({record->id, must.by_date, must.by_lesson});
        }
    }

    const std::vector<tune::SettingId>& settings() const { return settings_; }

private:
    std::optional<tune::TuneRecord> named(const std::string& which) {
        try {
            return tune_named(asked_.collection(), which);
        } catch (const Refused& refused) {
            if (refused.refusal().reason != Reason::unknown_tune) throw;
            made_.not_found.push_back(refused.refusal());
            return std::nullopt;
        }
    }

    // Nothing where its file is gone and the term goes on without.
    std::optional<tune::TuneRecord> there(Part part, const std::string& which) {
        std::optional<tune::TuneRecord> record = named(which);
        if (!record || !asked_.collection().settings_of(record->id).empty()) return record;
        if (!so_far_.is_planned_again) throw Refused({part, Reason::file_gone, which});
        if (!so_far_.given.contains(record->id)) made_.gone.push_back(*record);
        return std::nullopt;
    }

    void add(const tune::TuneRecord& record) {
        syllabus::CourseTune one = course_tune(asked_.collection(), record, request_.filter.columns.ornaments);
        if (one.tune.needed.empty()) return;
        if (const auto wish = wishes_.find(record.id); wish != wishes_.end()) one.asked_for += wish->second;
        course_.tunes.push_back(std::move(one));
        settings_.push_back(record.setting);
    }

    void require(Part part, const tune::TuneRecord& record) {
        const auto has = [&] {
            return std::any_of(course_.tunes.begin(), course_.tunes.end(),
                               [&](const syllabus::CourseTune& one) { return one.tune.id == record.id; });
        };
        if (without_.contains(record.id)) throw Refused({part, Reason::left_out_and_wanted, tune::title_of(record)});
        if (!has()) add(record);
        if (!has()) throw Refused({part, Reason::no_note, tune::title_of(record)});
    }

    const TunesAsked& asked_;
    const TermRequest& request_;
    const TermSoFar& so_far_;
    TermCourse& made_;
    syllabus::Course& course_;
    std::map<tune::TuneId, std::int64_t> wishes_;
    std::set<tune::TuneId> without_;
    std::vector<tune::SettingId> settings_;  // of course_.tunes
};

}  // namespace

std::vector<syllabus::Lesson> lessons_of(const TermRequest& request) {
    syllabus::TermDates dates;
    dates.from = request.from.value_or(base::Date());
    dates.on = request.on;
    dates.lessons = request.lessons.value_or(dates.lessons);
    dates.breaks = request.breaks;
    std::vector<syllabus::Lesson> lessons;
    try {
        for (const base::Date day : syllabus::lesson_dates(dates)) lessons.push_back({day, {}, false, {}, {}, {}});
    } catch (const syllabus::TermFault& fault) {
        throw Refused({Part::term, Reason::in_words, fault.what()});
    }
    return lessons;
}

TermCourse course_of(const collection::Collection& collection, const TermRequest& request, const TermSoFar& so_far) {
    Filter filter = request.filter;
    if (filter.scraps != Scraps::asked_for)
        filter.scraps = Scraps::left_aside;  // as whatever proposes tunes; not kept with a term
    const TunesAsked asked(collection, filter);
    TermCourse made;
    syllabus::Course& course = made.course;
    course.players = players_of(asked, request, so_far.undone);
    course.pace.notes_every = request.notes_every.value_or(course.pace.notes_every);
    course.pace.tunes_each = request.tunes_each.value_or(course.pace.tunes_each);
    course.pace.steps = request.steps;
    course.max_states = request.max_states.value_or(course.max_states);
    if (request.first) course.first = first_notes(asked, *request.first, course, made.had_of_first);
    for (const auto& [id, names] : asked.known_by_players())
        if (!so_far.own.contains(id)) course.known_by.emplace(id, names);
    CourseMaker maker(asked, request, so_far, made);
    maker.add_those_that_pass();
    maker.add_those_to_begin_with();
    maker.add_those_that_must_come();
    keep_one_of_each_title(course);
    course.uses_of = [&collection, settings = maker.settings()](std::size_t at) {
        return uses_of(collection, settings[at]);
    };
    made.left_out_notes = asked.left_out();
    course.promised = so_far.own;
    return made;
}

std::vector<syllabus::Telling> remarks_on(const TermCourse& course) {
    std::vector<syllabus::Telling> remarks;
    if (!course.had_of_first.empty()) remarks.emplace_back(syllabus::HadAlready{course.had_of_first});
    if (course.scraps > 0) remarks.emplace_back(syllabus::ScrapsLeftAside{course.scraps});
    if (course.known > 0) remarks.emplace_back(syllabus::SettledLeftOut{course.known});
    return remarks;
}

}  // namespace answers
