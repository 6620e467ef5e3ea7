// Tested by tune_pages_test.cc.
#include "paper/lesson_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "paper/block_lines.h"
#include "paper/instrument_figure.h"
#include "paper/ladder.h"
#include "paper/tune_words.h"
#include "report/words/words.h"
#include "report/writers/markup.h"

namespace paper {

using answers::LessonHandout;
using answers::LessonTune;

namespace {

constexpr double kLeftWidth = 92, kRightWidth = 80;  // mm
constexpr Type kBig{"big", 6.0, 7.6, Weight::bold, 1.0};

std::string who_of(const LessonHandout& handout) {
    std::string words = handout.player;
    if (handout.instrument) words += (words.empty() ? "" : ", ") + handout.instrument->title;
    return words;
}

std::string named(const LessonTune& tune) { return tune.title + (tune.rhythm.empty() ? "" : ", " + tune.rhythm); }

// `high C comes 3 times, once on a strong beat`
std::string where_it_comes(const LessonTune& tune, const std::string& note) {
    const auto times = [](int number) {
        return number == 1 ? std::string("once") : number == 2 ? std::string("twice") : fmt::format("{} times", number);
    };
    if (tune.times == 0) return {};
    return fmt::format("{} comes {}, {}.", note, times(tune.times),
                       tune.strong == 0            ? "never on a strong beat"
                       : tune.strong == tune.times ? (tune.times == 1 ? "on a strong beat" : "always on a strong beat")
                                                   : times(tune.strong) + " on a strong beat");
}

// The nearest notes one has, on both sides.
std::string between(int midi, const music::NoteSet& have, int fifths, Names names) {
    std::optional<int> below, above;
    for (const int other : have.midi_numbers()) {
        if (other < midi) below = other;
        if (other > midi && !above) above = other;
    }
    if (below && above)
        return fmt::format("It lies between {} and {}.", in_words(*below, fifths, names),
                           in_words(*above, fifths, names));
    if (below) return fmt::format("It lies above {}.", in_words(*below, fifths, names));
    if (above) return fmt::format("It lies below {}.", in_words(*above, fifths, names));
    return {};
}

// The frame in which the new note is told.
Piece new_note_box(const LessonHandout& handout, const Looks& looks) {
    const double inner = kLeftWidth - 8;
    std::vector<Piece> pieces;
    if (handout.fresh.empty()) {
        pieces.push_back(text_piece("No new note today", kBig, inner));
    } else {
        pieces.push_back(text_piece(
            (handout.fresh.size() == 1 ? "New note: " : "New notes: ") + notes_in_words(handout.fresh, 0, looks.names),
            kBig, inner));
        for (const int midi : handout.fresh.midi_numbers()) {
            const instruments::InstrumentNote* note = handout.instrument ? handout.instrument->note(midi) : nullptr;
            const std::string before = handout.fresh.size() == 1 ? "" : in_words(midi, 0, looks.names) + ": ";
            if (note) {
                const std::string way = way_in_words(*handout.instrument, note->ways.front());
                const std::string where = sentence(before + way) + ".";
                if (!way.empty())
                    pieces.push_back(text_piece(where, kPlain, inner, "<b>" + report::escaped(where) + "</b>"));
            } else if (handout.instrument) {
                pieces.push_back(text_piece(before + "not on this instrument.", kPlain, inner));
            }
            if (const std::string place = between(midi, handout.have, 0, looks.names); !place.empty())
                pieces.push_back(text_piece(before.empty() ? place : before + place, kPlain, inner));
        }
        if (handout.opens > 0)
            pieces.push_back(
                text_piece(fmt::format("{} {} of the collection.", handout.fresh.size() == 1 ? "It opens" : "They open",
                                       report::counted(handout.opens, "tune", "tunes")),
                           kPlain, inner));
    }
    std::string html = "<div class=\"framed\">";
    for (const Piece& piece : pieces) html += piece.html;
    return {html + "</div>", height_of(pieces) + 9.5};
}

std::vector<Piece> tune_list(const std::string& head, const std::vector<LessonTune>& tunes, double width,
                             const std::string& note) {
    std::vector<Piece> pieces{heading(head)};
    for (const LessonTune& tune : tunes) {
        const std::string words = named(tune) + ".";
        pieces.push_back(text_piece(words, kPlain, width,
                                    "<b>" + report::escaped(tune.title) + "</b>" +
                                        report::escaped(tune.rhythm.empty() ? "." : ", " + tune.rhythm + ".")));
        if (const std::string where = where_it_comes(tune, note); !where.empty() && !note.empty())
            pieces.push_back(text_piece(sentence(where), kLegend, width));
    }
    if (!pieces.empty()) pieces.back().height += 1.5;
    return pieces;
}

std::vector<Piece> left_column(const LessonHandout& handout, const Looks& looks) {
    std::vector<Piece> pieces{new_note_box(handout, looks)};
    pieces.back().height += 2;
    const std::string note = notes_in_words(handout.fresh, 0, looks.names);
    if (!handout.tunes.empty())
        append(pieces, tune_list(handout.term.empty()        ? "Tunes it opens"
                                 : handout.tunes.size() == 1 ? "New tune"
                                                             : "New tunes",
                                 handout.tunes, kLeftWidth, note));
    if (!handout.again.empty()) append(pieces, tune_list("Bring back", handout.again, kLeftWidth, ""));
    if (handout.next_date || !handout.next_notes.empty()) {
        pieces.push_back(heading("Next", handout.next_date ? day_in_words(*handout.next_date) : ""));
        std::string words = handout.next_notes.empty()
                                ? "No new note."
                                : "New note: " + notes_in_words(handout.next_notes, 0, looks.names) + ".";
        for (const LessonTune& tune : handout.next_tunes) words += " " + named(tune) + ".";
        pieces.push_back(text_piece(words, kPlain, kLeftWidth));
    }
    return pieces;
}

std::vector<Piece> right_column(const LessonHandout& handout, const Looks& looks) {
    if (handout.rungs.rungs.empty()) return {};
    const Figure figure = draw_ladder(handout.rungs, {looks.names, 0, {}}, kRightWidth);
    return {heading("The ladder"),
            {figure.svg(), figure.height + 1},
            text_piece(ladder_legend(handout.rungs), kLegend, kRightWidth)};
}

std::vector<Piece> drill_pieces(const LessonHandout& handout, const Looks& looks, double width, std::size_t across) {
    std::vector<Piece> pieces;
    for (const answers::DrillBlocks& drill : handout.drill) {
        BlockStyle style;
        style.sizes = looks.is_large ? kLarge : kSmall;
        style.names = looks.names;
        style.instrument = handout.instrument.get();
        if (handout.instrument) style.signs = layout_of(*handout.instrument);
        style.fresh = handout.fresh;
        style.taps = 4;
        style.is_of_tune = false;
        std::vector<PartLines> lines{{"", "", {}}};
        for (const answers::BlockBar& bar : drill.bars) {
            if (lines[0].lines.empty() || lines[0].lines.back().bars.size() == across) lines[0].lines.emplace_back();
            lines[0].lines.back().bars.push_back(bar);
            lines[0].lines.back().labels.emplace_back();
        }
        style = fitted(style, lines, width);
        pieces.push_back(heading("Play this first: " + in_words(drill.about, 0, looks.names) + " in its place"));
        pieces.push_back(text_piece("Slowly and evenly, four times.", kLegend, width));
        pieces.back().keeps_with_next = true;
        for (const BlockLine& line : lines[0].lines)
            pieces.push_back({draw(line, style, width).svg(height_of(style)), height_of(style) + style.sizes.gap});
    }
    return pieces;
}

std::string whose(const LessonHandout& handout) {
    std::string words = handout.term.empty() ? fmt::format("step {}", handout.number)
                                             : fmt::format("{} · lesson {}", handout.term, handout.number);
    if (handout.date) words += " · " + day_in_words(*handout.date);
    return words;
}

// A column of holes under its name.
std::string sign_of_week(const instruments::Instrument& instrument, const instruments::InstrumentNote& note,
                         const Looks& looks) {
    const InstrumentNotes notes{{},
                                [&] {
                                    music::NoteSet alone;
                                    alone.add(note.written);
                                    return alone;
                                }(),
                                0,
                                looks.names};
    const auto figure = draw_instrument(instrument, notes, 16);
    return figure ? figure->svg() : std::string();
}

}  // namespace

std::string day_in_words(base::Date date) {
    constexpr std::array<std::string_view, 12> kMonths{"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};
    const std::chrono::year_month_day day(date);
    return fmt::format("{} {} {}", static_cast<unsigned>(day.day()), kMonths[static_cast<unsigned>(day.month()) - 1],
                       static_cast<int>(day.year()));
}

std::vector<Sheet> lesson_sheets(const LessonHandout& handout, const Looks& looks) {
    const std::string note = handout.fresh.empty() ? "nothing new" : notes_in_words(handout.fresh, 0, looks.names);
    const std::string head = fmt::format("{} {}: {}", handout.term.empty() ? "Step" : "Lesson", handout.number, note);
    std::vector<Piece> pieces{titled(head, who_of(handout))};
    std::string day = handout.date ? fmt::format("{} {}", base::weekday_name(base::weekday_of(*handout.date)),
                                                 day_in_words(*handout.date))
                                   : "";
    if (handout.state == syllabus::LessonState::lost) day += ". No lesson was held.";
    if (!day.empty()) pieces.push_back(text_piece(day, kFacts));
    std::vector<Piece> left = left_column(handout, looks);
    const std::vector<Piece> right = right_column(handout, looks);
    // Beside a long ladder there is room for what is to be played first.
    std::vector<Piece> drill = drill_pieces(handout, looks, kLeftWidth, 2);
    const bool is_drill_beside = height_of(left) + height_of(drill) <= height_of(right) + 8;
    if (is_drill_beside) append(left, std::move(drill));
    pieces.push_back(side_by_side(left, kLeftWidth, right, kRightWidth));
    if (handout.instrument) {
        const InstrumentNotes notes{handout.have, handout.fresh, 0, looks.names};
        if (const auto figure = draw_instrument(*handout.instrument, notes, kWidth)) {
            pieces.push_back(heading("Where it lies", handout.fresh.empty() ? "" : "framed: new; dash: not yet"));
            pieces.push_back({figure->svg(), figure->height + 1});
        }
    }
    if (!is_drill_beside) append(pieces, drill_pieces(handout, looks, kWidth, 4));
    Foot foot{caution_for(handout.instrument.get()), whose(handout) + " · made with gamut", head};
    std::vector<Sheet> sheets{{to_pages(std::move(pieces), room_above(foot)), foot}};
    for (const answers::TuneHandout& sheet : handout.sheets) sheets.push_back(tune_pages(sheet, looks, whose(handout)));
    return sheets;
}

Sheet term_sheet(const syllabus::Syllabus& plan, const answers::TermLadder& ladder, const Looks& looks) {
    std::vector<Piece> pieces{titled(plan.name)};
    std::int64_t tunes = 0, notes = 0;
    for (const syllabus::Lesson& lesson : plan.lessons) {
        if (!lesson.is_held()) continue;
        tunes += static_cast<std::int64_t>(lesson.tunes.size());
        if (lesson.notes) notes += lesson.notes->notes.size();
    }
    pieces.push_back(
        text_piece(fmt::format("{} to {}. {}, {}.", day_in_words(plan.lessons.front().date),
                               day_in_words(plan.lessons.back().date), report::counted(notes, "new note", "new notes"),
                               report::counted(tunes, "new tune", "new tunes")),
                   kFacts));
    LadderLooks rungs{looks.names, 0, {}};
    for (const auto& [midi, lesson] : ladder.lessons) rungs.notes[midi] = fmt::format("lesson {}", lesson);
    if (!ladder.rungs.rungs.empty()) {
        const Figure figure = draw_ladder(ladder.rungs, rungs, kLeftWidth);
        std::vector<Piece> beside{text_piece(ladder_legend(ladder.rungs), kPlain, kRightWidth)};
        beside.back().height += 3;
        for (const auto& [midi, lesson] : ladder.lessons) {
            const std::string words = fmt::format("Lesson {}: {}.", lesson, in_words(midi, 0, looks.names));
            beside.push_back(text_piece(words, kPlain, kRightWidth, "<b>" + report::escaped(words) + "</b>"));
        }
        pieces.push_back(side_by_side({{figure.svg(), figure.height + 2}}, kLeftWidth, beside, kRightWidth));
    }
    // A table whose rows are pieces, so that none is cut; its columns are set.
    constexpr double kNewTune = 62, kBack = 55;
    const auto row = [&](const std::string& tag, const std::array<std::string, 5>& cells) {
        std::string html = "<table class=\"term\"><tr>";
        for (const std::string& cell : cells) html += fmt::format("<{0}>{1}</{0}>", tag, report::escaped(cell));
        constexpr Type kCell{"cell", 3.7, 4.6, Weight::regular, 0};
        const int lines = std::max({lines_of(cells[3], kCell, kNewTune - 2), lines_of(cells[4], kCell, kBack - 2),
                                    lines_of(cells[2], kCell, 25)});
        return Piece{html + "</tr></table>", lines * kCell.line + 2.0, tag == "th"};
    };
    pieces.push_back(row("th", {"No.", "Day", "New note", "New tune", "Bring back"}));
    const auto titles = [](const std::vector<syllabus::TermTune>& all) {
        std::string words;
        for (const syllabus::TermTune& tune : all) words += (words.empty() ? "" : "; ") + tune.title;
        return words;
    };
    for (std::size_t at = 0; at < plan.lessons.size(); ++at) {
        const syllabus::Lesson& lesson = plan.lessons[at];
        std::string words = day_in_words(lesson.date);  // without its year, which stands above
        words.resize(words.rfind(' '));
        if (!lesson.is_held())
            pieces.push_back(row("td", {std::to_string(at + 1), words, "", "no lesson was held", ""}));
        else
            pieces.push_back(row(
                "td",
                {std::to_string(at + 1), words, lesson.notes ? notes_in_words(lesson.notes->notes, 0, looks.names) : "",
                 lesson.tunes.empty() ? "no new tune" : titles(lesson.tunes), titles(lesson.again)}));
    }
    Foot foot{"", plan.name + " · made with gamut", plan.name};
    return {to_pages(std::move(pieces), room_above(foot)), foot};
}

Sheet week_sheet(const std::vector<answers::WeekHandout>& weeks, const Looks& looks) {
    std::vector<Piece> cards;
    for (const answers::WeekHandout& week : weeks) {
        const auto line = [](std::string_view label, const std::string& words) {
            return "<p class=\"week\"><b>" + report::escaped(label) + "</b> " + report::escaped(words) + "</p>";
        };
        std::string html = "<div class=\"card\"><p class=\"week-name\"><b>" + report::escaped(week.player) +
                           ", this week</b><span>from " + report::escaped(day_in_words(week.from)) + "</span></p>";
        const auto tune_line = [&](const answers::WeekTune& tune) {
            std::string words = tune::title_of(tune.record);
            if (tune.first_note)
                words +=
                    ". Starts on " + in_words(*tune.first_note, tune::spelling_fifths(tune.record), looks.names) + ".";
            return words;
        };
        if (week.tune) html += line(week.is_at_work ? "At work" : "New tune", tune_line(*week.tune));
        if (week.fresh) {
            const instruments::InstrumentNote* note = week.instrument ? week.instrument->note(*week.fresh) : nullptr;
            const std::string way = note ? way_in_words(*week.instrument, note->ways.front()) : std::string();
            if (note && way.empty())
                html += "<div class=\"sign\">" + sign_of_week(*week.instrument, *note, looks) + "</div>";
            html += line("New note", in_words(*week.fresh, 0, looks.names) + (way.empty() ? "" : ": " + way) + ".");
        }
        for (const answers::WeekTune& tune : week.again) html += line("Bring back", tune::title_of(tune.record));
        if (week.brief) html += line("Short day", tune_line(*week.brief));
        html +=
            "<p class=\"small\">A little often. " + report::escaped(caution_for(week.instrument.get())) + "</p></div>";
        cards.push_back({html, 80});
    }
    Foot foot{"", "made with gamut", ""};
    return {to_pages(std::move(cards), room_above(foot)), foot};
}

}  // namespace paper
