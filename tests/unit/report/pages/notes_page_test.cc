// What `gamut notes` says where its search had to end early, which no collection at hand brings about; and its shape.
#include "report/pages/notes_page.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "report/writers/text.h"

using nlohmann::json;

namespace {

music::NoteSet notes(std::initializer_list<int> midi) {
    music::NoteSet set;
    for (const int note : midi) set.add(note);
    return set;
}

answers::NotesAnswer ended_early() {
    answers::NotesAnswer page;
    page.tunes = 10;
    page.notes = {{62, planner::Had::no, 9, 0, 1}};
    answers::NotesAnswer::Smallest smallest;
    smallest.percent = 50;
    smallest.tunes = 5;
    smallest.found.cover = {notes({62, 64, 66}), 5};
    smallest.found.fewest = 2;
    page.smallest = {smallest};
    answers::NotesAnswer::BestStart start;
    start.count = 2;
    start.found.covers = {{notes({62, 64}), 3}, {notes({62, 66}), 1}};
    start.found.upper_bound = 4;
    page.best_start = start;
    return page;
}

std::string text_of(const answers::NotesAnswer& page) { return report::render_text(report::describe(page), {}); }

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("notes page: a search that ended early claims no more than it knows", "[report][notes]") {
    const std::string text = text_of(ended_early());
    CAPTURE(text);
    CHECK(says(text, "3 notes, 5 tunes: D4 E4 F#4. Not proved smallest: there may be one of 2."));
    CHECK(says(text, "Next best found: D4 F#4: opens 1 tune."));
    CHECK(says(text, "Not proved best: none can open more than 4 tunes."));
    CHECK_FALSE(says(text, "Proved:"));

    const json answer = json::parse(report::as_json(ended_early()));
    CHECK(answer["smallest"][0]["proof"] == "gap");
    CHECK(answer["smallest"][0]["fewest"] == 2);
    CHECK(answer["best_start"]["proof"] == "gap");
    CHECK(answer["best_start"]["upper_bound"] == 4);
    CHECK(answer["best_start"]["next"]["proof"] == "gap");
}

TEST_CASE("notes page: the best may be proved while the next best is not", "[report][notes]") {
    answers::NotesAnswer page = ended_early();
    page.smallest.clear();
    page.best_start->found.upper_bound = 3;
    const std::string text = text_of(page);
    CAPTURE(text);
    CHECK(says(text, "Next best found: D4 F#4"));
    CHECK(says(text, "Proved: no others open more."));
    const json answer = json::parse(report::as_json(page));
    CHECK(answer["best_start"]["proof"] == "optimal");
    CHECK(answer["best_start"]["next"]["proof"] == "gap");
}
