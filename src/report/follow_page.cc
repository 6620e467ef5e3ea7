#include "report/follow_page.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>

#include "report/json.h"
#include "report/words.h"

namespace report {

namespace {

using repertoire::Follow;
using repertoire::Join;
using repertoire::KeyChange;
using repertoire::TuneShape;

int fifths_of(const TuneShape& tune) { return tune.key ? tune.key->signature_fifths() : 0; }

Cell key_of(const TuneShape& tune) { return tune.key ? Cell(music::to_string(*tune.key)) : Cell(); }

Cell title_cell(const TuneShape& tune) {
    return tune.title.empty() ? Cell(std::string("(no title)")) : Cell(tune.title);
}

// How far the home note moves: `a tone`, `a fourth`. Names of intervals: common practice.
std::string interval_of(int semitones) {
    constexpr std::array<const char*, 7> kNames{"",        "a semitone", "a tone",   "a minor third",
                                                "a third", "a fourth",   "a tritone"};
    return kNames[static_cast<std::size_t>(std::abs(semitones))];
}

std::string opening_in_words(const Follow& follow) {
    return follow.opening >= repertoire::kLikeOpening ? "begins alike" : "begins otherwise";
}

std::string top_in_words(const Follow& follow) {
    if (follow.top_semitones == 0) return "as high";
    return (follow.top_semitones > 0 ? "up " : "down ") + std::to_string(std::abs(follow.top_semitones));
}

std::string rhythm_in_words(const FollowRow& row) {
    if (row.follow.rhythm == repertoire::RhythmChange::same) return row.tune.rhythm;
    if (!row.follow.easy_pace_from || !row.follow.easy_pace_to) return row.tune.rhythm + " (changes)";
    return fmt::format("{} (changes, beat {} to {})", row.tune.rhythm, *row.follow.easy_pace_from,
                       *row.follow.easy_pace_to);
}

std::string summary_of(const FollowPage& page) {
    std::string text = counted(page.matched, "tune follows", "tunes follow");
    const auto shown = static_cast<std::int64_t>(page.rows.size());
    if (shown < page.matched) text += fmt::format(" ({} shown, --limit)", shown);
    if (page.other_rhythm > 0) text += fmt::format("; {} of another rhythm, or of none we know", page.other_rhythm);
    if (page.same_opening > 0) text += fmt::format("; {} begin the same, so not proposed", page.same_opening);
    text += fmt::format("; {} left out", page.left_out);
    std::string reasons;
    for (const Sieve& sieve : page.why)
        if (sieve.fails > 0)
            reasons += fmt::format("{}{} by --{}", reasons.empty() ? " (" : ", ", sieve.fails, sieve.filter);
    return text + reasons + (reasons.empty() ? "." : ").");
}

}  // namespace

std::string key_change_in_words(const Follow& follow, const TuneShape& next) {
    if (follow.key == KeyChange::unknown || !next.key) return "unknown";
    if (follow.key == KeyChange::same) return "same key";
    std::string words = follow.key_semitones == 0    ? std::string("same home note")
                        : follow.key_semitones == -5 ? std::string("up a fifth")
                        : follow.key_semitones == 6
                            ? std::string("a tritone away")
                            : (follow.key_semitones > 0 ? "up " : "down ") + interval_of(follow.key_semitones);
    if (follow.key == KeyChange::lift) words += ", lifts";
    if (follow.key == KeyChange::far) words += ", far";
    return words;
}

std::string join_in_words(const Follow& follow) {
    if (follow.join == Join::repeat) return "repeat";
    const char* const direction = follow.join_semitones > 0 ? "up" : "down";
    return fmt::format("{} {} {}", repertoire::to_string(follow.join), direction, std::abs(follow.join_semitones));
}

Document describe_follow(const FollowPage& page) {
    Document document;
    const TuneShape& first = page.first;
    document.blocks.emplace_back(Heading{"After " + (first.title.empty() ? std::string("(no title)") : first.title) +
                                         ", " + (first.rhythm.empty() ? std::string("rhythm unknown") : first.rhythm) +
                                         (first.key ? ", " + music::to_string(*first.key) : "") + ", ends on " +
                                         note_or_dash(first.last_note, fifths_of(first))});
    Table table{{{"id", false},
                 {"title", true, 14},
                 {"rhythm", true, 6},
                 {"key", false},
                 {"key moves", true, 8},
                 {"join", false},
                 {"new notes", true, 6},
                 {"opening", true, 7},
                 {"top", false}},
                {}};
    bool any_alike = false;
    for (const FollowRow& row : page.rows) any_alike = any_alike || row.follow.opening >= repertoire::kLikeOpening;
    if (!any_alike) table.columns.erase(table.columns.begin() + 7);
    for (const FollowRow& row : page.rows) {
        auto& cells = table.rows.emplace_back();
        cells = {
            Cell(row.tune.id.value),
            title_cell(row.tune),
            Cell(rhythm_in_words(row)),
            key_of(row.tune),
            Cell(key_change_in_words(row.follow, row.tune)),
            Cell(join_in_words(row.follow)),
            Cell(row.follow.fresh.empty() ? std::string("none") : note_list(row.follow.fresh, fifths_of(row.tune)))};
        if (any_alike) cells.emplace_back(opening_in_words(row.follow));
        cells.emplace_back(top_in_words(row.follow));
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{summary_of(page)});
    if (!page.rows.empty())
        document.blocks.emplace_back(
            Paragraph{"Best first by all columns together. join: from the last note to the next tune's first, in "
                      "semitones; new notes: those this tune does not use; top: how far the highest note moves, in "
                      "semitones. Common practice, no source; --json shows the points."});
    return document;
}

Document tabulate_follow(const FollowPage& page) {
    Table table;
    for (const char* title : {"id", "title", "rhythm", "rhythm_change", "key", "key_change", "key_semitones", "join",
                              "join_semitones", "new_notes", "opening_likeness", "top_semitones", "points"})
        table.columns.push_back({title, false});
    for (const FollowRow& row : page.rows) {
        const Follow& follow = row.follow;
        table.rows.push_back(
            {Cell(row.tune.id.value), row.tune.title.empty() ? Cell() : Cell(row.tune.title), Cell(row.tune.rhythm),
             Cell(std::string(repertoire::to_string(follow.rhythm))), key_of(row.tune),
             Cell(std::string(repertoire::to_string(follow.key))), Cell(std::int64_t{follow.key_semitones}),
             Cell(std::string(repertoire::to_string(follow.join))), Cell(std::int64_t{follow.join_semitones}),
             follow.fresh.empty() ? Cell() : Cell(note_list(follow.fresh, fifths_of(row.tune))),
             Cell(Share{follow.opening}), Cell(std::int64_t{follow.top_semitones}), Cell(std::int64_t{follow.points})});
    }
    return {{std::move(table)}};
}

std::string follow_json(const FollowPage& page) {
    const auto tune_json = [](const TuneShape& tune) {
        Json json;
        json["id"] = tune.id.value;
        json["title"] = tune.title.empty() ? Json(nullptr) : Json(tune.title);
        json["rhythm"] = tune.rhythm.empty() ? Json(nullptr) : Json(tune.rhythm);
        json["key"] = tune.key ? Json(music::to_string(*tune.key)) : Json(nullptr);
        json["first_note"] = note_or_dash(tune.first_note, fifths_of(tune));
        json["last_note"] = note_or_dash(tune.last_note, fifths_of(tune));
        return json;
    };
    Json json;
    json["version"] = 1;
    json["after"] = tune_json(page.first);
    json["tunes"] = Json::array();
    for (const auto& [tune, follow] : page.rows) {
        Json row = tune_json(tune);
        row["rhythm_change"] = repertoire::to_string(follow.rhythm);
        row["key_change"] = repertoire::to_string(follow.key);
        row["key_semitones"] = follow.key == KeyChange::unknown ? Json(nullptr) : Json(follow.key_semitones);
        row["join"] = repertoire::to_string(follow.join);
        row["join_semitones"] = follow.join_semitones;
        row["new_notes"] = note_names(follow.fresh, fifths_of(tune));
        row["opening_likeness"] = std::round(follow.opening * 1000) / 1000;
        row["top_semitones"] = follow.top_semitones;
        row["pace_from"] = or_null(follow.easy_pace_from);
        row["pace_to"] = or_null(follow.easy_pace_to);
        row["points"] = follow.points;
        json["tunes"].push_back(std::move(row));
    }
    json["matched"] = page.matched;
    json["shown"] = page.rows.size();
    json["other_rhythm"] = page.other_rhythm;
    json["same_opening"] = page.same_opening;
    json["left_out"] = page.left_out;
    json["why"] = Json::array();
    for (const Sieve& sieve : page.why) json["why"].push_back({{"filter", sieve.filter}, {"fails", sieve.fails}});
    return finish(json);
}

}  // namespace report
