#include "report/pages/follow_page.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <map>

#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace report {

namespace {

using repertoire::Follow;
using repertoire::Join;
using repertoire::KeyChange;
using repertoire::TuneShape;

int fifths_of(const TuneShape& tune) { return tune.key ? tune.key->signature_fifths() : 0; }

Cell key_of(const TuneShape& tune) { return tune.key ? Cell(music::to_string(*tune.key)) : Cell(); }

// `4th up`, `same tonic`. Names of intervals: common practice, no source.
std::string interval_of(int semitones) {
    constexpr std::array<const char*, 7> kNames{"", "semitone", "tone", "3rd", "3rd", "4th", "tritone"};
    if (semitones == 0) return "same tonic";
    if (semitones == -5) return "5th up";
    return std::string(kNames[static_cast<std::size_t>(std::abs(semitones))]) + (semitones > 0 ? " up" : " down");
}

std::string with_sign(int semitones) { return (semitones > 0 ? "+" : "") + std::to_string(semitones); }

std::string opening_in_words(const Follow& follow) {
    return follow.opening >= repertoire::kLikeOpening ? "alike" : "other";
}

std::string top_in_words(const Follow& follow) {
    return follow.top_semitones == 0 ? "same" : with_sign(follow.top_semitones);
}

// `A change of rhythm that is customary: jig (75 beats a minute) to reel (70).` Empty where there is none.
std::string changes_in_words(const answers::FollowAnswer& page) {
    std::map<std::string, const Follow*> changes;
    for (const answers::Follower& row : page.rows)
        if (row.follow.rhythm == repertoire::RhythmChange::customary) changes.emplace(row.tune.rhythm, &row.follow);
    const auto with_pace = [](const std::string& rhythm, std::optional<int> pace) {
        return pace ? fmt::format("{} ({} beats a minute)", rhythm, *pace) : rhythm;
    };
    std::string text;
    for (const auto& [rhythm, follow] : changes)
        text += (text.empty() ? "Customary, with a change of rhythm: " : "; ") +
                with_pace(page.first.rhythm, follow->easy_pace_from) + " to " + with_pace(rhythm, follow->easy_pace_to);
    return text.empty() ? text : text + ".";
}

// The ids of the rows whose rhythm is guessed.
std::string guessed_of(const answers::FollowAnswer& page) {
    std::string ids;
    for (const answers::Follower& row : page.rows)
        if (row.tune.is_rhythm_guessed()) ids += (ids.empty() ? "" : ", ") + std::to_string(row.tune.id.value);
    return ids;
}

std::string summary_of(const answers::FollowAnswer& page) {
    std::string text = counted(page.matched, "tune follows", "tunes follow");
    const auto shown = static_cast<std::int64_t>(page.rows.size());
    if (shown < page.matched) text += fmt::format(" ({} shown, --limit)", shown);
    if (page.other_rhythm > 0) text += fmt::format("; {} of another or unknown rhythm", page.other_rhythm);
    if (page.same_opening > 0) text += fmt::format("; {} begin the same, so not proposed", page.same_opening);
    text += fmt::format("; {} left out", page.left_out);
    std::string reasons;
    for (const answers::Sieve& sieve : page.why)
        if (sieve.fails > 0)
            reasons += fmt::format("{}{} by --{}", reasons.empty() ? " (" : ", ", sieve.fails, sieve.filter);
    return text + reasons + (reasons.empty() ? "." : ").");
}

}  // namespace

std::string key_move_in_words(const Follow& follow) {
    if (follow.key == KeyChange::unknown) return "key unknown";
    return follow.key == KeyChange::same ? "same key" : interval_of(follow.key_semitones);
}

std::string join_in_words(const Follow& follow) {
    const std::string join(repertoire::to_string(follow.join));
    return follow.join == Join::repeat ? join : join + " " + with_sign(follow.join_semitones);
}

Document describe(const answers::FollowAnswer& page) {
    Document document;
    const TuneShape& first = page.first;
    document.blocks.emplace_back(Title{"After " + tune::title_or_none(first.title) + ", " +
                                       (first.rhythm.empty() ? std::string("rhythm unknown")
                                                             : marked_rhythm(first.rhythm, first.is_rhythm_guessed())) +
                                       (first.key ? ", " + music::to_string(*first.key) : "") + ", ends on " +
                                       note_or_dash(first.last_note, fifths_of(first))});
    bool any_alike = false, any_change = false;
    for (const answers::Follower& row : page.rows) {
        any_alike = any_alike || row.follow.opening >= repertoire::kLikeOpening;
        any_change = any_change || row.follow.rhythm != repertoire::RhythmChange::same;
    }
    Table table{{{"id"}, {"title", Fit::wrapped, 12}}, {}};
    if (any_change) table.columns.push_back({"rhythm"});
    for (const Column& column : {Column{"key"}, {"moves"}, {"join"}, {"new notes", Fit::wrapped, 8}})
        table.columns.push_back(column);
    if (any_alike) table.columns.push_back({"opening"});
    table.columns.push_back({"highest note"});
    for (const answers::Follower& row : page.rows) {
        const Follow& follow = row.follow;
        auto& cells = table.rows.emplace_back();
        cells = {Cell(row.tune.id.value), Cell(tune::title_or_none(row.tune.title))};
        if (any_change) cells.emplace_back(marked_rhythm(row.tune.rhythm, row.tune.is_rhythm_guessed()));
        const bool is_worth_saying = follow.key != KeyChange::same && follow.key != KeyChange::unknown;
        const std::string kind = is_worth_saying ? std::string(repertoire::to_string(follow.key)) + ", " : "";
        cells.push_back(key_of(row.tune));
        cells.emplace_back(kind + key_move_in_words(follow));
        cells.emplace_back(join_in_words(follow));
        cells.push_back(follow.fresh.empty() ? Cell(std::string("none"))
                                             : Cell(Notes{follow.fresh, fifths_of(row.tune)}));
        if (any_alike) cells.emplace_back(opening_in_words(follow));
        cells.emplace_back(top_in_words(follow));
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{summary_of(page)});
    if (page.scraps > 0) document.blocks.emplace_back(Paragraph{scraps_in_words(page.scraps)});
    if (const std::string changes = changes_in_words(page); !changes.empty())
        document.blocks.emplace_back(Paragraph{changes});
    if (!page.rows.empty())
        document.blocks.emplace_back(
            Paragraph{"The best first, by all columns together. moves: where the home note goes; join: from this last "
                      "note to the next tune's first, in semitones; lift: to a key that brightens (a 4th, 5th or tone "
                      "up, or from minor to major); "
                      "new notes: those this tune does not use; highest note: how "
                      "far it moves, in semitones. By common practice, no source; --json shows points."});
    if (const std::string guessed = guessed_of(page); !any_change && !guessed.empty())
        document.blocks.emplace_back(
            Paragraph{"The files of these do not say which rhythm they are, their notes do: " + guessed + "."});
    if (first.is_rhythm_guessed() || (any_change && !guessed_of(page).empty()))
        document.blocks.emplace_back(Paragraph{kRhythmGuessed});
    return document;
}

Document tabulate(const answers::FollowAnswer& page) {
    Table table;
    for (const char* title : {"id", "title", "rhythm", "rhythm_change", "key", "key_change", "key_semitones", "join",
                              "join_semitones", "new_notes", "opening_likeness", "top_semitones", "points"})
        table.columns.push_back({title});
    for (const answers::Follower& row : page.rows) {
        const Follow& follow = row.follow;
        table.rows.push_back(
            {Cell(row.tune.id.value), row.tune.title.empty() ? Cell() : Cell(row.tune.title), Cell(row.tune.rhythm),
             Cell(std::string(repertoire::to_string(follow.rhythm))), key_of(row.tune),
             Cell(std::string(repertoire::to_string(follow.key))), Cell(std::int64_t{follow.key_semitones}),
             Cell(std::string(repertoire::to_string(follow.join))), Cell(std::int64_t{follow.join_semitones}),
             follow.fresh.empty() ? Cell() : Cell(Notes{follow.fresh, fifths_of(row.tune)}),
             Cell(Share{follow.opening}), Cell(std::int64_t{follow.top_semitones}), Cell(std::int64_t{follow.points})});
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::FollowAnswer& page) {
    const auto shape_json = [](const TuneShape& tune) {
        Json json;
        json["id"] = tune.id.value;
        json["title"] = tune.title.empty() ? Json(nullptr) : Json(tune.title);
        json["rhythm"] = tune.rhythm.empty() ? Json(nullptr) : Json(tune.rhythm);
        json["rhythm_basis"] = rhythm_basis_json(tune.rhythm, tune.rhythm_basis);
        json["key"] = tune.key ? Json(music::to_string(*tune.key)) : Json(nullptr);
        json["first_note"] = note_or_dash(tune.first_note, fifths_of(tune));
        json["last_note"] = note_or_dash(tune.last_note, fifths_of(tune));
        return json;
    };
    Json json;
    json["version"] = 1;
    json["after"] = shape_json(page.first);
    json["tunes"] = Json::array();
    for (const auto& [tune, follow] : page.rows) {
        Json row = shape_json(tune);
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
    json["scraps"] = page.scraps;
    json["why"] = Json::array();
    for (const answers::Sieve& sieve : page.why)
        json["why"].push_back({{"filter", sieve.filter}, {"fails", sieve.fails}});
    return finish(json);
}

}  // namespace report
