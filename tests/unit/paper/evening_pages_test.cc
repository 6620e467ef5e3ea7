#include "paper/evening_pages.h"

#include <catch2/catch.hpp>

namespace {

answers::EveningAnswer five_in_a_set() {
    answers::EveningAnswer evening;
    evening.goal.times = 3;
    repertoire::EveningSet set{"reel", {}};
    for (std::size_t at = 0; at < 5; ++at) {
        repertoire::TuneShape shape;
        shape.title = at == 0 ? "<b>Lamp" : "Tune " + std::to_string(at);
        shape.rhythm = "reel";
        shape.key = music::Key{{music::Letter::G, 0}, music::Mode::major};
        shape.key_decided = true;
        shape.first_note = 62 + static_cast<int>(at);
        shape.last_note = 67;
        evening.tunes.push_back(shape);
        set.tunes.push_back({at, 60, std::nullopt});
    }
    evening.evening.sets = {set};
    return evening;
}

std::string page_of(const paper::Sheet& sheet) { return paper::html_of(sheet.pages, sheet.foot); }

}  // namespace

TEST_CASE("evening pages: a programme has the sets and no minutes", "[paper][evening_pages]") {
    const std::string page = page_of(
        paper::programme(five_in_a_set(), {"Last Night of the Boat Shed", base::read_date("2027-03-05"), "Ina, Uli"}));
    CHECK(page.find("Last Night of the Boat Shed") != std::string::npos);
    CHECK(page.find("5 March 2027") != std::string::npos);
    CHECK(page.find("Ina, Uli") != std::string::npos);
    CHECK(page.find("<p class=\"set-name\">Reels</p>") != std::string::npos);
    CHECK(page.find("&lt;b&gt;Lamp") != std::string::npos);
    CHECK(page.find("minute") == std::string::npos);
}

TEST_CASE("evening pages: a long set goes on on a second card, and cards tell how tunes join",
          "[paper][evening_pages]") {
    const std::string page = page_of(paper::set_cards(five_in_a_set(), {"", base::read_date("2027-03-05"), ""}, {}));
    CHECK(page.find("Set 1: Reels, 1 of 2") != std::string::npos);
    CHECK(page.find("Set 1: Reels, 2 of 2") != std::string::npos);
    CHECK(page.find("home note G, starts on D") != std::string::npos);
    CHECK(page.find("last G, next D sharp") != std::string::npos);
    CHECK(page.find("3 times each") != std::string::npos);
}

TEST_CASE("evening pages: what was taught, and nothing that was not", "[paper][evening_pages]") {
    syllabus::Syllabus plan;
    plan.name = "Mondays";
    for (const auto state :
         {syllabus::LessonState::taught, syllabus::LessonState::lost, syllabus::LessonState::planned}) {
        syllabus::Lesson lesson;
        lesson.date = base::read_date("2027-01-18") + std::chrono::days(7 * static_cast<int>(plan.lessons.size()));
        lesson.state = state;
        lesson.tunes.push_back(
            {tune::TuneId{1}, "Tune " + std::to_string(plan.lessons.size()), "jig", {}, {}, 0, 0, 0, 0});
        plan.lessons.push_back(lesson);
    }
    const std::string page = page_of(paper::learned(plan, {}));
    CHECK(page.find("Tune 0, jig, 18 January 2027") != std::string::npos);
    CHECK(page.find("Tune 1") == std::string::npos);
    CHECK(page.find("Tune 2") == std::string::npos);
    CHECK(page.find("Teacher") != std::string::npos);
}
