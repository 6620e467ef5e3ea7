#include "report/pages/handling_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/words/hands_line.h"
#include "report/words/way_label.h"
#include "report/words/words.h"

namespace report {

using instruments::Motion;

namespace {

constexpr std::size_t kMovesShown = 5;
constexpr std::size_t kStretchesShown = 3;
constexpr std::size_t kBarsListed = 8;

// `3, 5, 7 and 4 more`.
std::string bars_in_words(const std::vector<int>& bars) {
    std::string words;
    const std::size_t shown = std::min(bars.size(), kBarsListed);
    for (std::size_t at = 0; at < shown; ++at)
        words += (at ? ", " : "") + (bars[at] == 0 ? std::string("pick-up") : std::to_string(bars[at]));
    if (shown < bars.size()) words += fmt::format(" and {} more", bars.size() - shown);
    return words;
}

std::string stand_in_words(const hands::Lack& lack, int fifths) {
    if (lack.is_beneath) return "may be left out: it lies under the tune";
    switch (lack.stand_in) {
        case hands::StandIn::yes:
            return "yes, " + note_or_dash(lack.neighbour, fifths) + ": it comes once, weak and short";
        case hands::StandIn::perhaps:
            return "perhaps " + note_or_dash(lack.neighbour, fifths) + ": it is never strong nor held";
        case hands::StandIn::no:
            break;
    }
    if (lack.strong > 0) return "no: it is on a strong beat";
    return lack.held > 0 ? "no: it is held" : "no: no neighbour is at hand";
}

std::string fold_in_words(const hands::NearMiss& miss) {
    if (!miss.fold) return "Folding them an octave does not help: not all are at hand up there or down there.";
    const hands::Fold& fold = *miss.fold;
    std::string words = fmt::format("Folded an octave {} all are at hand", fold.up && fold.down ? "up or down"
                                                                           : fold.up            ? "up"
                                                                                                : "down");
    if (fold.largest_leap > 0) {
        words += fmt::format("; the largest leap that makes is {} in {}", interval_in_words(fold.largest_leap),
                             fold.leap_bar == 0 ? "the pick-up" : "bar " + std::to_string(fold.leap_bar));
        if (fold.leap_before != fold.largest_leap)
            words += fmt::format(", where {} is written", interval_in_words(fold.leap_before));
    }
    return words + ".";
}

void describe_lacks(const hands::NearMiss& miss, int fifths, Document& document) {
    Table table{{{"missing"},
                 {"times"},
                 {"strong"},
                 {"held"},
                 {"bars", Fit::wrapped, 10},
                 {"a note beside it instead?", Fit::wrapped, 30}},
                {}};
    for (const hands::Lack& lack : miss.lacks)
        table.rows.push_back({Cell(note_or_dash(lack.midi, fifths)), Cell(std::int64_t{lack.count}),
                              Cell(std::int64_t{lack.strong}), Cell(std::int64_t{lack.held}),
                              Cell(bars_in_words(lack.bars)), Cell(stand_in_words(lack, fifths))});
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{fold_in_words(miss)});
}

std::string move_in_words(int semitones) {
    if (semitones == 0) return "as it is";
    return fmt::format("{} {}", semitones > 0 ? "up" : "down", std::abs(semitones));
}

void describe_moves(const hands::Handling& handling, Document& document) {
    const auto as_it_is = std::find_if(handling.moves.begin(), handling.moves.end(),
                                       [](const hands::Move& move) { return move.semitones == 0; });
    if (as_it_is == handling.moves.end() || (as_it_is == handling.moves.begin() && as_it_is->missing == 0)) return;
    document.blocks.emplace_back(Heading{"Moved"});
    Table table{{{"semitones"}, {"key"}, {"missing"}, {"mean hardness"}, {"hardest"}, {"usual key"}}, {}};
    const auto add = [&table](const hands::Move& move) {
        table.rows.push_back({Cell(move_in_words(move.semitones)),
                              Cell(move.key ? music::to_string(*move.key) : std::string("-")),
                              Cell(std::int64_t{move.missing}), Cell(fmt::format("{:.1f}", move.mean_grade)),
                              Cell(std::int64_t{move.hardest_grade}), Cell(move.is_customary ? "yes" : "")});
    };
    const auto shown =
        handling.moves.begin() + static_cast<std::ptrdiff_t>(std::min(kMovesShown, handling.moves.size()));
    for (auto move = handling.moves.begin(); move != shown; ++move) add(*move);
    if (as_it_is >= shown) add(*as_it_is);
    document.blocks.emplace_back(std::move(table));
    if (handling.moves.front().missing > 0)
        document.blocks.emplace_back(Paragraph{"No move of an octave or less makes it fit; these lack least."});
}

std::string hardest_in_words(const hands::HardestBar& bar, const instruments::Instrument& instrument) {
    std::string words = bar.bar == 0 ? "the pick-up" : "bar " + std::to_string(bar.bar);
    std::string motions;
    for (std::size_t at = 0; at < instruments::kMotions; ++at) {
        const auto motion = static_cast<Motion>(at);
        if (instrument.motion_costs[at] == 0 || bar.motions[at] == 0 || motion == Motion::grade) continue;
        motions += fmt::format("{}{} {}", motions.empty() ? ": " : ", ", motion_in_words(motion), bar.motions[at]);
    }
    return words + (motions.empty() ? ": hard notes" : motions);
}

std::string stretches_in_words(std::vector<hands::Stretch> stretches, std::optional<Motion> by) {
    std::stable_sort(stretches.begin(), stretches.end(),
                     [](const hands::Stretch& a, const hands::Stretch& b) { return a.notes > b.notes; });
    if (stretches.size() > kStretchesShown) stretches.resize(kStretchesShown);
    std::string words;
    for (const hands::Stretch& stretch : stretches) {
        const std::string where = by == Motion::string      ? "on the " + stretch.where + " string"
                                  : by == Motion::register_ ? "in " + stretch.where
                                                            : stretch.where;
        const std::string first = stretch.first_bar == 0 ? "pick-up" : std::to_string(stretch.first_bar);
        words += fmt::format("{}{} notes {}, {} {}", words.empty() ? "" : "; ", stretch.notes, where,
                             stretch.last_bar == stretch.first_bar ? "bar" : "bars", first);
        if (stretch.last_bar != stretch.first_bar) words += fmt::format(" to {}", stretch.last_bar);
    }
    return words;
}

void describe_hands(const answers::InHand& in_hand, int fifths, Document& document) {
    const hands::Handling& handling = in_hand.handling;
    const instruments::Instrument& instrument = *in_hand.instrument;
    Particulars lines;
    for (const hands::MotionSum& sum : handling.motions) {
        std::string words = std::to_string(sum.count);
        if (sum.quick > 0 && sum.quick < sum.count) words += fmt::format(", {} of them after a short note", sum.quick);
        if (sum.quick > 0 && sum.quick == sum.count) words += ", all after a short note";
        if (sum.fewest < sum.count && sum.motion != Motion::second_way)
            words += fmt::format(" (never fewer than {})", sum.fewest);
        lines.lines.emplace_back(motion_in_words(sum.motion), words);
    }
    if (handling.hardest) lines.lines.emplace_back("hardest", hardest_in_words(*handling.hardest, instrument));
    if (!handling.stretches.empty())
        lines.lines.emplace_back("longest stretches",
                                 stretches_in_words(handling.stretches, hands::stretches_by(instrument)));
    if (!lines.lines.empty()) {
        document.blocks.emplace_back(Heading{"Under the hand, played the cheapest way"});
        document.blocks.emplace_back(std::move(lines));
    }
    if (handling.way.strokes.empty()) return;
    document.blocks.emplace_back(Heading{"Bar by bar"});
    describe_hands_line(handling.way, instrument, fifths, document);
    if (const std::string key = label_key(instrument); !key.empty()) document.blocks.emplace_back(Paragraph{key + "."});
}

}  // namespace

std::string motion_in_words(Motion motion) {
    constexpr std::array<std::string_view, instruments::kMotions> kWords{
        "direction changes", "row changes",      "string crossings",     "reaches", "register breaks",
        "half-holes",        "cross-fingerings", "many fingers at once", "keys",    "bends",
        "lever changes",     "hardness above 1", "second ways"};
    return std::string(kWords[static_cast<std::size_t>(motion)]);
}

std::string interval_in_words(int semitones) {
    // Source: the names of the intervals of the diatonic scale, by their semitones.
    constexpr std::array<std::string_view, 13> kNames{"a unison",  "a second",  "a second", "a third", "a third",
                                                      "a fourth",  "a tritone", "a fifth",  "a sixth", "a sixth",
                                                      "a seventh", "a seventh", "an octave"};
    const std::string counted_semitones = counted(semitones, "semitone", "semitones");
    if (semitones < 0 || semitones > 12) return counted_semitones;
    return fmt::format("{} ({})", kNames[static_cast<std::size_t>(semitones)], counted_semitones);
}

void describe_in_hand(const answers::InHand& in_hand, int fifths, Document& document) {
    const hands::NearMiss& miss = in_hand.handling.near_miss;
    std::string heading = in_hand.instrument ? "On " + in_hand.instrument->title : std::string();
    if (!in_hand.notes.empty()) heading += (heading.empty() ? "With " : ", with ") + in_hand.notes;
    document.blocks.emplace_back(Heading{heading});
    if (miss.notes == 0) {
        document.blocks.emplace_back(Paragraph{"No note of it was understood, so nothing can be said."});
        return;
    }
    if (miss.lacks.empty()) {
        document.blocks.emplace_back(Paragraph{"It fits: every note is there."});
    } else {
        document.blocks.emplace_back(
            Paragraph{fmt::format("It does not fit as it is: {} of its {} {} not there.", miss.missing,
                                  counted(miss.notes, "note", "notes"), miss.missing == 1 ? "is" : "are")});
        describe_lacks(miss, fifths, document);
    }
    if (in_hand.instrument == nullptr) return;
    describe_moves(in_hand.handling, document);
    describe_hands(in_hand, fifths, document);
}

}  // namespace report
