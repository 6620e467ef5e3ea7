#include "syllabus/lay_out.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <random>
#include <set>

#include "lessons.h"
#include "music/note_expression.h"

namespace {

music::NoteSet notes(const std::string& text) { return music::read_notes(text); }

music::NoteSet every_note() { return {~std::uint64_t{0}, ~std::uint64_t{0}}; }

syllabus::Course course_of(const char* have, const std::vector<std::pair<std::string, std::string>>& tunes) {
    syllabus::Course course;
    course.players = {{"", notes(have), every_note()}};
    for (std::size_t at = 0; at < tunes.size(); ++at) {
        syllabus::CourseTune one;
        one.tune = lessons::tune(static_cast<std::int64_t>(at + 1), std::string(1, static_cast<char>('A' + at)),
                                 tunes[at].second);
        one.tune.needed = notes(tunes[at].first);
        course.tunes.push_back(one);
    }
    course.uses_of = [](std::size_t) { return std::vector<tune::NoteUse>(); };
    return course;
}

std::vector<syllabus::Lesson> empty_lessons(const std::vector<std::string>& dates) {
    std::vector<syllabus::Lesson> made;
    for (const std::string& date : dates) {
        syllabus::Lesson lesson;
        lesson.date = base::read_date(date);
        made.push_back(lesson);
    }
    return made;
}

const std::vector<std::string> kFive{"2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02", "2027-02-09"};

std::vector<std::string> taught(const syllabus::Syllabus& plan) {
    std::vector<std::string> titles;
    for (const syllabus::Lesson& lesson : plan.lessons) titles.push_back(lessons::titles(lesson.tunes));
    return titles;
}

}  // namespace

TEST_CASE("lay out: nothing new in the last lesson, and no tune before its notes", "[syllabus]") {
    const auto course = course_of("D4 E4", {{"D4", "jig"}, {"D4 F#4", "reel"}, {"E4 F#4", "jig"}, {"G4", "reel"}});
    const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    CHECK(plan.lessons.back().tunes.empty());
    CHECK(plan.lessons.back().only_goes_over);
    music::NoteSet known = course.players.front().have;
    for (const syllabus::Lesson& lesson : plan.lessons) {
        if (lesson.notes) known = known | lesson.notes->notes;
        for (const syllabus::TermTune& tune : lesson.tunes) CHECK(tune.needed.is_within(known));
    }
    REQUIRE(plan.lessons.front().notes.has_value());
    CHECK(plan.lessons.front().notes->notes == notes("F#4"));
    CHECK(plan.unmet.empty());
}

TEST_CASE("lay out: the first lesson after more than two weeks only goes over what was learnt", "[syllabus]") {
    const auto course = course_of("D4", {{"D4", "jig"}, {"D4", "reel"}, {"D4", "polka"}, {"D4", "waltz"}});
    auto plan = syllabus::lay_out(course, empty_lessons({"2027-01-12", "2027-01-27", "2027-02-03", "2027-02-10"}), 0);
    CHECK(plan.lessons[1].only_goes_over);
    CHECK(taught(plan)[1].empty());
    plan = syllabus::lay_out(course, empty_lessons({"2027-01-12", "2027-01-26", "2027-02-02", "2027-02-09"}), 0);
    CHECK_FALSE(plan.lessons[1].only_goes_over);
}

TEST_CASE("lay out: what was taught stands, is not taught again, and its notes are there", "[syllabus]") {
    const auto course = course_of(
        "D4 E4", {{"D4", "jig"}, {"D4 F#4", "reel"}, {"E4 F#4", "jig"}, {"G4 E4", "reel"}, {"D4 E4", "polka"}});
    const auto first = syllabus::lay_out(course, empty_lessons(kFive), 0);
    for (std::size_t fixed = 0; fixed <= kFive.size(); ++fixed) {
        auto lessons = first.lessons;
        if (fixed < lessons.size())
            lessons[fixed] = {lessons[fixed].date, syllabus::LessonState::lost, false, {}, {}, {}};
        const auto again = syllabus::lay_out(course, lessons, std::min(fixed + 1, lessons.size()));
        for (std::size_t at = 0; at < fixed; ++at) CHECK(again.lessons[at] == first.lessons[at]);
        std::set<tune::TuneId> seen;
        for (const syllabus::Lesson& lesson : again.lessons)
            for (const syllabus::TermTune& tune : lesson.tunes) CHECK(seen.insert(tune.id).second);
        music::NoteSet known = course.players.front().have;
        for (const syllabus::Lesson& lesson : again.lessons) {
            if (lesson.notes) {
                CHECK((lesson.notes->notes & known).empty());
                known = known | lesson.notes->notes;
            }
            for (const syllabus::TermTune& tune : lesson.tunes) CHECK(tune.needed.is_within(known));
        }
    }
}

TEST_CASE("lay out: the class has what all have, and learns what all can learn", "[syllabus]") {
    auto course = course_of("D4 E4", {{"D4 F#4", "jig"}, {"D4 G4", "reel"}, {"E4 G4", "jig"}});
    course.players = {{"Ina", notes("D4 E4 F#4"), notes("D4 E4 F#4 A4")}, {"Olli", notes("D4 E4"), every_note()}};
    const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    CHECK(plan.have == notes("D4 E4"));
    for (const syllabus::Lesson& lesson : plan.lessons)
        if (lesson.notes) {
            CHECK(lesson.notes->notes == notes("F#4"));
            CHECK(lesson.notes->learners == std::vector<std::string>{"Olli"});
        }
}

TEST_CASE("lay out: what must come comes in time, with its notes, or is told with the reason", "[syllabus]") {
    auto course = course_of("D4", {{"D4", "jig"}, {"D4 E4", "reel"}, {"D4 E4", "jig"}, {"D4 G4 A4", "waltz"}});
    course.pace.notes_every = 1;
    course.musts = {{{4}, std::nullopt, 2}};
    auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    CHECK(plan.unmet.empty());
    CHECK(taught(plan)[1] == "D");
    course.musts = {{{4}, std::nullopt, 1}};
    plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    REQUIRE(plan.unmet.size() == 1);
    CHECK(plan.unmet[0] == syllabus::Telling(syllabus::CannotCome{
                               "D", {{}, 1, {}}, syllabus::NoTimeForNotes{notes("G4 A4"), {1, 1, {}}, 1, false}, 2}));
    course.musts = {{{4}, base::read_date("2027-01-11"), std::nullopt}};
    plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    REQUIRE(plan.unmet.size() == 1);
    CHECK(std::holds_alternative<syllabus::NoLessonInTime>(std::get<syllabus::CannotCome>(plan.unmet[0]).why));
    course.musts = {{{1}, std::nullopt, 1}, {{2}, std::nullopt, 1}};
    plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    REQUIRE(plan.unmet.size() == 1);
    CHECK(std::get<syllabus::CannotCome>(plan.unmet[0]).why == syllabus::Hindrance(syllabus::NoRoom{2, 1, 1, false}));
    CHECK(plan.outcome.cost[syllabus::Criterion::wishes_missed] == 1);
}

TEST_CASE("lay out: a tune that somebody knows already is told, with the lesson and who", "[syllabus]") {
    auto course = course_of("D4", {{"D4", "jig"}});
    course.known_by[{1}] = {"Ina", "Uli"};
    const auto plan = syllabus::lay_out(course, empty_lessons({kFive[0], kFive[1]}), 0);
    CHECK(plan.remarks == std::vector<syllabus::Telling>{syllabus::KnownToSome{"A", 1, {"Ina", "Uli"}}});
}

TEST_CASE("lay out: a note that is not on every instrument is why its tune cannot come", "[syllabus]") {
    auto course = course_of("D4", {{"D4", "jig"}, {"D4 E4", "reel"}});
    course.players.push_back({"", notes("D4"), notes("D4 F4")});
    course.musts = {{{2}, std::nullopt, std::nullopt}};
    const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    CHECK(plan.unmet == std::vector<syllabus::Telling>{
                            syllabus::CannotCome{"B", {}, syllabus::NotOnEveryInstrument{notes("E4")}, {}}});
}

TEST_CASE("lay out: at most so many new notes, taught notes counted", "[syllabus]") {
    auto course = course_of("D4", {{"D4", "jig"}, {"E4", "reel"}, {"E4", "jig"}, {"F4", "waltz"}, {"F4", "jig"}});
    course.pace.steps = 1;
    const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    const auto count = [](const syllabus::Syllabus& one) {
        int steps = 0;
        for (const syllabus::Lesson& lesson : one.lessons) steps += lesson.notes ? 1 : 0;
        return steps;
    };
    CHECK(count(plan) == 1);
    CHECK(count(syllabus::lay_out(course, plan.lessons, 2)) == 1);
}

namespace {

// Of all timetables with new notes in the order of the plan the fewest tunes that must come and do not in time: tries
// every choice of tunes for the lessons, a tune a lesson.
std::int64_t fewest_missed(const syllabus::Course& course, const syllabus::Syllabus& plan) {
    std::vector<music::NoteSet> known;  // with each lesson
    music::NoteSet so_far = plan.have;
    for (const syllabus::Lesson& lesson : plan.lessons) {
        if (lesson.notes) so_far = so_far | lesson.notes->notes;
        known.push_back(so_far);
    }
    std::int64_t best = static_cast<std::int64_t>(course.musts.size());
    std::vector<bool> came(course.musts.size(), false);
    const std::function<void(std::size_t, std::int64_t)> go_on = [&](std::size_t lesson, std::int64_t in_time) {
        best = std::min(best, static_cast<std::int64_t>(course.musts.size()) - in_time);
        if (lesson + 1 >= plan.lessons.size()) return;
        go_on(lesson + 1, in_time);
        for (std::size_t at = 0; at < course.musts.size(); ++at) {
            const syllabus::Must& must = course.musts[at];
            const auto& tune = course.tunes[static_cast<std::size_t>(must.id.value - 1)].tune;
            if (came[at] || !tune.needed.is_within(known[lesson]) || static_cast<int>(lesson) >= *must.by_lesson)
                continue;
            came[at] = true;
            go_on(lesson + 1, in_time + 1);
            came[at] = false;
        }
    };
    go_on(0, 0);
    return best;
}

}  // namespace

TEST_CASE("lay out: the fewest wishes are missed, and the bound is none that a plan undercuts", "[syllabus]") {
    std::mt19937 random(17);  // any seed does
    const auto up_to = [&](unsigned most) { return random() % (most + 1); };
    const std::vector<std::string> sets{"D4", "E4", "D4 F#4", "E4 F#4 G4", "G4", "D4 C5", "A4 G4", "E4"};
    int late = 0;
    for (int round = 0; round < 300; ++round) {
        std::vector<std::pair<std::string, std::string>> tunes;
        for (int at = 0; at < 7; ++at) tunes.emplace_back(sets[up_to(7)], up_to(1) == 0 ? "jig" : "reel");
        auto course = course_of("D4 E4", tunes);
        course.pace.notes_every = 1 + static_cast<int>(up_to(1));
        for (std::int64_t id = 1; id <= 4; ++id)
            if (up_to(2) != 0) course.musts.push_back({{id}, std::nullopt, 1 + static_cast<int>(up_to(3))});
        const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
        INFO("round " << round);
        CHECK(plan.outcome.bound <= plan.outcome.cost);
        CHECK(plan.outcome.cost == plan.outcome.bound);  // small enough to be searched through
        const std::int64_t missed = plan.outcome.cost[syllabus::Criterion::wishes_missed];
        CHECK(missed <= fewest_missed(course, plan));
        CHECK(static_cast<std::int64_t>(plan.unmet.size()) == missed);
        late += missed > 0 ? 1 : 0;
    }
    CHECK(late > 50);
}

TEST_CASE("lay out: notes to begin with come although they open nothing, or are told", "[syllabus]") {
    auto course = course_of("D4 E4", {{"D4", "jig"}, {"E4", "reel"}, {"D4 E4", "polka"}, {"D4 F#4", "waltz"}});
    course.first = {68, 90};
    auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    music::NoteSet brought;
    for (const syllabus::Lesson& lesson : plan.lessons)
        if (lesson.notes) brought = brought | lesson.notes->notes;
    CHECK(brought == notes("G#4 F#6"));
    CHECK(plan.unmet.empty());
    course.pace.steps = 1;
    plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    REQUIRE(plan.unmet.size() == 1);
    CHECK(plan.unmet[0] == syllabus::Telling(syllabus::NotesCannotCome{notes("F#6"), syllabus::TimeForNotes{1, 2, 1}}));
    CHECK(plan.outcome.cost[syllabus::Criterion::wishes_missed] == 1);
}

TEST_CASE("lay out: what a lost lesson held moves on, before what nobody was promised", "[syllabus]") {
    auto course =
        course_of("D4 E4", {{"D4", "jig"}, {"E4", "reel"}, {"D4 E4", "polka"}, {"D4 E4", "waltz"}, {"E4", "air"}});
    course.tunes[0].tune.hardness = 9;
    course.promised[course.tunes[0].tune.id] = syllabus::Promise::lost;
    const auto plan = syllabus::lay_out(course, empty_lessons(kFive), 0);
    const auto titles = taught(plan);
    CHECK(std::find(titles.begin(), titles.end(), "A") != titles.end());
}
