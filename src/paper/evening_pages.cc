// Tested by evening_pages_test.cc.
#include "paper/evening_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/words/words.h"
#include "report/writers/markup.h"

namespace paper {

namespace {

using repertoire::EveningSet;
using repertoire::TuneShape;

constexpr Type kSetName{"set-name", 5.6, 8.0, Weight::bold, 0};
constexpr Type kSetTune{"set-tune", 6.0, 8.0, Weight::regular, 0};
constexpr double kCardRow = 60;  // mm: a card and what is between two of them

std::string title_on(const TuneShape& tune) { return tune.title.empty() ? "(no title)" : tune.title; }

std::string name_of_set(const EveningSet& set) {
    std::string name = set.rhythm.empty() ? "tunes" : report::rhythm_in_plural(set.rhythm);
    name[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(name[0])));
    return name;
}

int fifths_of(const TuneShape& tune) { return tune.key ? tune.key->signature_fifths() : 0; }

std::string tune_on_card(const TuneShape& tune, int number, const Looks& looks) {
    const int fifths = fifths_of(tune);
    std::string words = fmt::format("<p class=\"card-tune\"><b>{} {}</b><br>", number, report::escaped(title_on(tune)));
    if (tune.key)
        words += fmt::format("home note {}{}, ", tune.key_decided ? "" : "probably ",
                             report::escaped(in_words(60 + tune.key->tonic.pitch_class(), fifths, looks.names)));
    return words + fmt::format("starts on {}</p>", report::escaped(in_words(tune.first_note, fifths, looks.names)));
}

// `last E, next D`
std::string join_on_card(const TuneShape& tune, const TuneShape& next, const Looks& looks) {
    return fmt::format("<p class=\"card-join\">last {}, next {}</p>",
                       report::escaped(in_words(tune.last_note, fifths_of(tune), looks.names)),
                       report::escaped(in_words(next.first_note, fifths_of(next), looks.names)));
}

}  // namespace

Sheet programme(const answers::EveningAnswer& evening, const Occasion& occasion) {
    const std::string title = occasion.title.empty() ? "An evening of music" : occasion.title;
    std::vector<Piece> pieces{titled(title)};
    pieces.push_back(text_piece(day_in_words(occasion.date), kFacts));
    if (!occasion.players.empty()) pieces.push_back(text_piece(occasion.players, kFacts));
    pieces.back().height += 6;
    for (const EveningSet& set : evening.evening.sets) {
        std::string html = "<p class=\"set-name\">" + name_of_set(set) + "</p>";
        double height = kSetName.line;
        for (const repertoire::EveningTune& tune : set.tunes) {
            const Piece line = text_piece(title_on(evening.tunes[tune.tune]), kSetTune);
            html += line.html;
            height += line.height;
        }
        pieces.push_back({html, height + 5});
    }
    const Foot foot{"", "made with gamut", title};
    return {to_pages(std::move(pieces), room_above(foot)), foot};
}

Sheet set_cards(const answers::EveningAnswer& evening, const Occasion& occasion, const Looks& looks) {
    std::vector<std::string> cards;
    for (std::size_t at = 0; at < evening.evening.sets.size(); ++at) {
        const EveningSet& set = evening.evening.sets[at];
        const std::size_t count = (set.tunes.size() + kTunesOnCard - 1) / kTunesOnCard;
        for (std::size_t card = 0; card < count; ++card) {
            std::string html =
                fmt::format("<p class=\"card-name\">Set {}: {}{}<span>{}</span></p>", at + 1, name_of_set(set),
                            count > 1 ? fmt::format(", {} of {}", card + 1, count) : "",
                            evening.goal.times == 1 ? "once" : fmt::format("{} times each", evening.goal.times));
            const std::size_t end = std::min(set.tunes.size(), (card + 1) * kTunesOnCard);
            for (std::size_t tune = card * kTunesOnCard; tune < end; ++tune) {
                const TuneShape& shape = evening.tunes[set.tunes[tune].tune];
                html += tune_on_card(shape, static_cast<int>(tune) + 1, looks);
                if (tune + 1 < set.tunes.size())
                    html += join_on_card(shape, evening.tunes[set.tunes[tune + 1].tune], looks);
            }
            cards.push_back(std::move(html));
        }
    }
    std::vector<Piece> rows;
    for (std::size_t at = 0; at < cards.size(); at += 2) {
        std::string html = "<div class=\"set-card\">" + cards[at] + "</div>";
        if (at + 1 < cards.size()) html += "<div class=\"set-card second\">" + cards[at + 1] + "</div>";
        rows.push_back({html, kCardRow});
    }
    const Foot foot{"", day_in_words(occasion.date) + " · made with gamut", ""};
    return {to_pages(std::move(rows), room_above(foot)), foot};
}

Sheet learned(const syllabus::Syllabus& plan, const Looks& looks) {
    std::vector<Piece> pieces{titled("What we learned")};
    std::vector<Piece> notes{heading("Notes")}, tunes{heading("Tunes")};
    std::optional<base::Date> first, last;
    for (const syllabus::Lesson& lesson : plan.lessons) {
        if (lesson.state != syllabus::LessonState::taught) continue;
        if (!first) first = lesson.date;
        last = lesson.date;
        if (lesson.notes)
            notes.push_back(text_piece(
                notes_in_words(lesson.notes->notes, 0, looks.names) + ", " + day_in_words(lesson.date), kPlain));
        for (const syllabus::TermTune& tune : lesson.tunes)
            tunes.push_back(text_piece(
                tune.title + (tune.rhythm.empty() ? "" : ", " + tune.rhythm) + ", " + day_in_words(lesson.date),
                kPlain));
    }
    pieces.push_back(text_piece(first
                                    ? fmt::format("{}, {} to {}", plan.name, day_in_words(*first), day_in_words(*last))
                                    : plan.name + ". No lesson is said to have been given yet.",
                                kFacts));
    pieces.back().height += 4;
    for (std::vector<Piece>* list : {&notes, &tunes})
        if (list->size() > 1)
            for (Piece& piece : *list) pieces.push_back(std::move(piece));
    pieces.push_back({"<p class=\"sign-here\">Teacher</p>", 26});
    const Foot foot{"", plan.name + " · made with gamut", "What we learned"};
    return {to_pages(std::move(pieces), room_above(foot)), foot};
}

}  // namespace paper
