#include "report/pages/evening_page.h"

#include <fmt/format.h>

#include <set>

#include "report/pages/follow_page.h"
#include "report/words/cell_words.h"
#include "report/words/json.h"
#include "report/words/words.h"
#include "tune/title.h"

namespace report {

namespace {

using repertoire::EveningSet;
using repertoire::EveningTune;
using repertoire::TuneShape;

int count_tunes(const answers::EveningAnswer& page) {
    int tunes = 0;
    for (const EveningSet& set : page.evening.sets) tunes += static_cast<int>(set.tunes.size());
    return tunes;
}

std::string times_in_words(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : fmt::format("{} times", times);
}

std::string paces_in_words(const answers::EveningAnswer& page) {
    std::set<std::string> rhythms;
    for (const EveningSet& set : page.evening.sets) rhythms.insert(set.rhythm);
    std::string words;
    for (const std::string& rhythm : rhythms)
        if (const auto pace = repertoire::pace_of(rhythm))
            words += fmt::format("{}{} {}", words.empty() ? "" : ", ", rhythm, pace->beats_a_minute(page.goal.pace));
    return words;
}

std::string sum_of(const answers::EveningAnswer& page) {
    std::string text = fmt::format("{}, {}, {} of {}; each tune {} through, the time between sets not counted.",
                                   counted(static_cast<std::int64_t>(page.evening.sets.size()), "set", "sets"),
                                   counted(count_tunes(page), "tune", "tunes"), clock_in_words({page.evening.seconds}),
                                   counted(page.goal.minutes, "minute", "minutes"), times_in_words(page.goal.times));
    if (page.evening.sets.empty())
        text = page.tunes.empty() ? "No tune passes the filters." : "No set could be made of these tunes.";
    else if (!page.evening.is_filled)
        text += fmt::format(" {} fill no more, in sets of one rhythm and at most {} of a rhythm running.",
                            page.evening.not_looked_at > 0 ? "The tunes looked at" : "These tunes",
                            repertoire::kMostRunning);
    return text;
}

std::string left_aside_of(const answers::EveningAnswer& page) {
    std::string text;
    const auto add = [&text](std::int64_t number, const std::string& what) {
        if (number > 0) text += (text.empty() ? "Left aside: " : ", ") + std::to_string(number) + " " + what;
    };
    add(page.evening.without_pace, "without a beat to count (airs, unknown rhythms)");
    add(page.evening.odd_length, "not of whole parts of 8 bars");
    add(page.evening.without_company,
        page.evening.without_company == 1 ? "alone of its rhythm" : "alone of their rhythm");
    add(page.evening.not_looked_at,
        fmt::format("not looked at (of a rhythm {} are tried)", page.evening.most_of_rhythm));
    add(page.doubles, "probably the same as " + std::string(page.doubles == 1 ? "another" : "others"));
    add(page.left_out, "by the filters");
    add(page.other_meter,
        page.other_meter == 1 ? "whose R: says it, but not its meter" : "whose R: says it, but not their meter");
    add(page.unwanted, "by --without");
    add(page.scraps, page.scraps == 1 ? "scrap (--scraps takes it in)" : "scraps (--scraps takes them in)");
    return text.empty() ? text : text + ".";
}

}  // namespace

Document describe(const answers::EveningAnswer& page) {
    Document document;
    document.blocks.emplace_back(Title{"An evening of " + counted(page.goal.minutes, "minute", "minutes")});
    Table table{{{"set"},
                 {"at"},
                 {"id"},
                 {"title", Fit::wrapped, 16},
                 {"rhythm"},
                 {"key"},
                 {"joins the one before", Fit::wrapped, 18}},
                {}};
    int now = 0;
    std::int64_t number = 0;
    bool any_guessed = false;
    std::int64_t printed_once = 0;
    for (const EveningSet& set : page.evening.sets) {
        ++number;
        bool is_first = true, was_guessed = false;
        for (const EveningTune& each : set.tunes) {
            const TuneShape& tune = page.tunes[each.tune];
            const bool is_guessed = tune.is_rhythm_guessed();
            table.rows.push_back({is_first ? Cell(number) : Cell(FromAbove{}), Cell(Duration{now}), Cell(tune.id.value),
                                  Cell(tune::title_or_none(tune.title)),
                                  is_first || is_guessed || was_guessed ? Cell(marked_rhythm(tune.rhythm, is_guessed))
                                                                        : Cell(FromAbove{}),
                                  tune.key ? Cell(music::to_string(*tune.key)) : Cell(),
                                  each.join ? Cell(key_move_in_words(*each.join) + "; " + join_in_words(*each.join))
                                            : Cell(std::string())});
            any_guessed = any_guessed || is_guessed;
            printed_once += repertoire::are_parts_repeated(tune, page.goal);
            now += each.seconds;
            is_first = false;
            was_guessed = is_guessed;
        }
    }
    if (!table.rows.empty()) document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{sum_of(page)});
    if (!page.evening.sets.empty()) {
        document.blocks.emplace_back(Paragraph{fmt::format(
            "Beats a minute, {}: {}. Common practice, no source.",
            page.goal.pace == repertoire::PaceKind::easy ? "easy" : "as in a session", paces_in_words(page))});
        document.blocks.emplace_back(Paragraph{
            page.evening.is_settled
                ? "No single exchange of tunes or sets makes this list better; that none does is not proof that there "
                  "is no better one."
                : "The search for a better list was ended before it was through."});
    }
    if (printed_once > 0)
        document.blocks.emplace_back(
            Paragraph{fmt::format("{} printed without repeats; {} parts are played twice each time (--as-printed plays "
                                  "them once).",
                                  printed_once == 1 ? "1 tune is" : fmt::format("{} tunes are", printed_once),
                                  printed_once == 1 ? "its" : "their")});
    if (const std::string aside = left_aside_of(page); !aside.empty()) document.blocks.emplace_back(Paragraph{aside});
    if (any_guessed) document.blocks.emplace_back(Paragraph{kRhythmGuessed});
    return document;
}

Document tabulate(const answers::EveningAnswer& page) {
    Table table;
    for (const char* title : {"set", "place", "at_seconds", "id", "title", "rhythm", "key", "bars", "seconds",
                              "key_change", "join", "join_semitones", "points"})
        table.columns.push_back({title});
    std::int64_t now = 0, number = 0;
    for (const EveningSet& set : page.evening.sets) {
        ++number;
        std::int64_t place = 0;
        for (const EveningTune& each : set.tunes) {
            const TuneShape& tune = page.tunes[each.tune];
            auto& row = table.rows.emplace_back();
            row = {Cell(number),
                   Cell(++place),
                   Cell(now),
                   Cell(tune.id.value),
                   tune.title.empty() ? Cell() : Cell(tune.title),
                   Cell(tune.rhythm),
                   tune.key ? Cell(music::to_string(*tune.key)) : Cell(),
                   Cell(std::int64_t{tune.bars}),
                   Cell(std::int64_t{each.seconds})};
            if (each.join)
                row.insert(row.end(),
                           {Cell(std::string(repertoire::to_string(each.join->key))),
                            Cell(std::string(repertoire::to_string(each.join->join))),
                            Cell(std::int64_t{each.join->join_semitones}), Cell(std::int64_t{each.join->points})});
            row.resize(table.columns.size());
            now += each.seconds;
        }
    }
    return {{std::move(table)}};
}

std::string as_json(const answers::EveningAnswer& page) {
    Json json;
    json["version"] = 1;
    json["minutes"] = page.goal.minutes;
    json["times"] = page.goal.times;
    json["in_set"] = page.goal.in_set;
    json["pace"] = repertoire::to_string(page.goal.pace);
    json["seconds"] = page.evening.seconds;
    json["filled"] = page.evening.is_filled;
    json["proof"] = page.evening.is_settled ? "local optimum" : "ended early";
    json["sets"] = Json::array();
    int now = 0;
    for (const EveningSet& set : page.evening.sets) {
        Json row;
        row["rhythm"] = set.rhythm;
        if (const auto pace = repertoire::pace_of(set.rhythm))
            row["beats_a_minute"] = pace->beats_a_minute(page.goal.pace);
        row["at_seconds"] = now;
        row["tunes"] = Json::array();
        for (const EveningTune& each : set.tunes) {
            const TuneShape& tune = page.tunes[each.tune];
            Json one;
            one["id"] = tune.id.value;
            one["title"] = tune.title.empty() ? Json(nullptr) : Json(tune.title);
            one["rhythm_basis"] = rhythm_basis_json(tune.rhythm, tune.rhythm_basis);
            one["key"] = tune.key ? Json(music::to_string(*tune.key)) : Json(nullptr);
            one["bars"] = tune.bars;
            one["parts_repeated"] = repertoire::are_parts_repeated(tune, page.goal);
            one["seconds"] = each.seconds;
            one["join"] = each.join ? Json({{"key_change", repertoire::to_string(each.join->key)},
                                            {"key_semitones", each.join->key_semitones},
                                            {"join", repertoire::to_string(each.join->join)},
                                            {"join_semitones", each.join->join_semitones},
                                            {"points", each.join->points}})
                                    : Json(nullptr);
            row["tunes"].push_back(std::move(one));
            now += each.seconds;
        }
        json["sets"].push_back(std::move(row));
    }
    json["considered"] = page.evening.considered;
    json["without_pace"] = page.evening.without_pace;
    json["odd_length"] = page.evening.odd_length;
    json["without_company"] = page.evening.without_company;
    json["not_looked_at"] = page.evening.not_looked_at;
    json["probably_same"] = page.doubles;
    json["left_out"] = page.left_out;
    json["other_meter"] = page.other_meter;
    json["unwanted"] = page.unwanted;
    json["scraps"] = page.scraps;
    return finish(json);
}

}  // namespace report
