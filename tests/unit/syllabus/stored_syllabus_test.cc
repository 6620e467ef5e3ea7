#include "syllabus/stored_syllabus.h"

#include <catch2/catch.hpp>

#include "lessons.h"
#include "music/note_expression.h"
#include "syllabus/changes.h"

namespace {

std::vector<syllabus::Telling> unmet_of_each_kind() {
    const music::NoteSet notes = music::read_notes("C4 E4");
    const syllabus::Until by_day{base::read_date("2027-02-02"), {}, {}};
    return {syllabus::InWords{"not \"met\""},
            syllabus::CameLate{"Lamp", by_day, 4},
            syllabus::CannotCome{"Lamp", {{}, 3, {}}, syllabus::NoLessonInTime{}, {}},
            syllabus::CannotCome{"Lamp", {{}, {}, 2}, syllabus::NotOnEveryInstrument{notes}, 5},
            syllabus::CannotCome{"Lamp", {}, syllabus::NoTimeForNotes{notes, {1, 2, 7}, 3, true}, {}},
            syllabus::CannotCome{"Lamp", by_day, syllabus::NoRoom{3, 4, 2, true}, 6},
            syllabus::CannotCome{"Lamp", by_day, syllabus::NoPlaceLeft{}, {}},
            syllabus::FileGone{"Stove"},
            syllabus::NotesCannotCome{notes, {}},
            syllabus::NotesCannotCome{notes, syllabus::TimeForNotes{1, 2, {}}}};
}

std::vector<syllabus::Telling> remarks_of_each_kind() {
    const music::NoteSet notes = music::read_notes("C4 E4");
    return {syllabus::InWords{"a remark"},    syllabus::HadAlready{notes},
            syllabus::LearntSince{notes},     syllabus::ScrapsLeftAside{2},
            syllabus::SettledLeftOut{1},      syllabus::ManyNotesAtOnce{3, 4},
            syllabus::NewInLastLesson{},      syllabus::EmptyPlaces{2},
            syllabus::AfterBreak{5},          syllabus::KnownToSome{"Lamp", 2, {"Ina", "Uli"}},
            syllabus::ReturnsLate{"Lamp", 35}};
}

syllabus::Syllabus some_syllabus() {
    syllabus::Syllabus plan;
    plan.name = "Dinnseoireacht \"é\"";
    plan.revision = 3;
    plan.planned_on = base::read_date("2026-12-01");
    plan.asked = R"({"from":"2027-01-12","have":"D4 E4"})";
    plan.have.add(62);
    plan.lessons = lessons::weekly({"2027-01-12", "2027-01-19"});
    plan.lessons[0].state = syllabus::LessonState::taught;
    plan.lessons[0].notes = syllabus::NewNotes{plan.have, 7, {"Ina"}};
    plan.lessons[0].tunes[0].needed.add(100);
    plan.lessons[0].tunes[0].use = syllabus::Use::often;
    plan.lessons[0].tunes[0].times = 4;
    plan.lessons[0].tunes[0].strong = 2;
    plan.lessons[0].tunes[0].hardness = 3;
    plan.lessons[1].again = plan.lessons[0].tunes;
    plan.lessons[1].only_goes_over = true;
    plan.closing = {{"jig", plan.lessons[0].tunes, 60}};
    plan.unmet = unmet_of_each_kind();
    plan.remarks = remarks_of_each_kind();
    plan.outcome.cost[syllabus::Criterion::hardness] = 3;
    plan.outcome.bound[syllabus::Criterion::hardness] = 2;
    plan.outcome.states = 99;
    plan.outcome.steps_possible = 4;
    plan.outcome.path_is_proven = false;
    return plan;
}

}  // namespace

TEST_CASE("stored syllabus: read back exactly", "[syllabus]") {
    const syllabus::Syllabus plan = some_syllabus();
    const std::string text = syllabus::write_stored(plan);
    CHECK(syllabus::read_stored(text) == plan);
    CHECK(syllabus::write_stored(syllabus::read_stored(text)) == text);
}

TEST_CASE("stored syllabus: a term that was kept while plans told in sentences is read, its sentences as they were",
          "[syllabus]") {
    syllabus::Syllabus plan = some_syllabus();
    plan.unmet = {syllabus::InWords{"\"Lamp\" cannot come."}};
    plan.remarks = {syllabus::InWords{"a remark"}};
    std::string text = syllabus::write_stored(plan);
    REQUIRE(text.find(R"("unmet":["\"Lamp\" cannot come."],"remarks":["a remark"])") != std::string::npos);
    const std::size_t version = text.find("\"stored\":3");
    REQUIRE(version != std::string::npos);
    text.replace(version, 10, "\"stored\":2");
    CHECK(syllabus::read_stored(text) == plan);
    const std::size_t hardness = text.find("\"hardness\":3,\"lateness");
    REQUIRE(hardness != std::string::npos);
    text.erase(hardness, 13);
    CHECK_THROWS_AS(syllabus::read_stored(text), syllabus::StoredFault);  // 2 had all criteria
}

TEST_CASE("stored syllabus: a term kept before there were all criteria is read", "[syllabus]") {
    std::string text = syllabus::write_stored(some_syllabus());
    const auto change = [&](const std::string& old, const std::string& other) {
        for (std::size_t at = text.find(old); at != std::string::npos; at = text.find(old, at + other.size()))
            text.replace(at, old.size(), other);
    };
    change("\"stored\":3", "\"stored\":1");
    for (const char* criterion : {"wishes-late", "left-behind", "tunes-late", "notes-alone"})
        change("\"" + std::string(criterion) + "\":0,", "");
    CHECK(syllabus::read_stored(text) == some_syllabus());
    change("\"stored\":1", "\"stored\":3");
    CHECK_THROWS_AS(syllabus::read_stored(text), syllabus::StoredFault);
}

TEST_CASE("stored syllabus: anything else is refused, not guessed at", "[syllabus]") {
    const std::string text = syllabus::write_stored(some_syllabus());
    for (const char* wrong : {"", "{}", "[]", "{\"stored\":4}", "null", "7"})
        CHECK_THROWS_AS(syllabus::read_stored(wrong), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(text.substr(0, text.size() / 2)), syllabus::StoredFault);
    const auto with = [&](const std::string& old, const std::string& other) {
        std::string changed = text;
        changed.replace(changed.find(old), old.size(), other);
        return changed;
    };
    CHECK_THROWS_AS(syllabus::read_stored(with("2027-01-12\",\"state", "2027-02-31\",\"state")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("\"taught\"", "\"held\"")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("[62]", "[128]")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("\"use\":2", "\"use\":3")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("no-place-left", "no-such-reason")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("{\"is\":\"file-gone\"", "{\"is\":\"file-lost\"")),
                    syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("\"is\":\"file-gone\",", "")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("\"days\":35", "\"days\":null")), syllabus::StoredFault);
    // Numbers that would be cut off or wrap round, and what is no list where one should be.
    for (const char* number : {"4.5", "1e300", "5000000000", "18446744073709551615", "true", "\"4\""})
        CHECK_THROWS_AS(syllabus::read_stored(with("\"times\":4", "\"times\":" + std::string(number))),
                        syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("[62]", "{\"a\":62}")), syllabus::StoredFault);
    CHECK_THROWS_AS(syllabus::read_stored(with("\"closing\":[", "\"closing\":{},\"before\":[")), syllabus::StoredFault);
}

TEST_CASE("changes: the lessons that differ, and those that one plan alone has", "[syllabus]") {
    const syllabus::Syllabus plan = some_syllabus();
    CHECK(syllabus::changes_between(plan, plan).empty());
    syllabus::Syllabus other = plan;
    other.lessons[1].state = syllabus::LessonState::lost;
    other.lessons.push_back(plan.lessons[0]);
    const auto changes = syllabus::changes_between(plan, other);
    REQUIRE(changes.size() == 2);
    CHECK(changes[0].lesson == 1);
    CHECK(changes[0].before->is_held());
    CHECK_FALSE(changes[0].after->is_held());
    CHECK(changes[1].lesson == 2);
    CHECK_FALSE(changes[1].before.has_value());
}
