// Tested by tune_pages_test.cc.
#include "paper/tune_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/block_lines.h"
#include "paper/instrument_figure.h"
#include "paper/tune_words.h"
#include "report/words/way_label.h"
#include "report/writers/markup.h"

namespace paper {

using answers::BlockBar;
using answers::TuneHandout;

namespace {

constexpr double kBarWidth = 74, kColumnsWidth = 98;  // mm: the practice bar, and what stands beside it
constexpr double kHalf = 86;                          // mm: half the width, with room between
constexpr std::size_t kCompactLines = 8;
constexpr const char* kHowToPractise =
    "Slowly and evenly, round and round, four times. Then with the bar before it. Then the whole line.";

bool is_on_strings(const instruments::Instrument& instrument) {
    const std::string& technique = instrument.notes.front().ways.front().technique;
    return technique == "bowed" || technique == "fretted";
}

// What is set once for all lines.
BlockStyle style_of(const TuneHandout& handout, const Looks& looks, const BlockSizes& sizes) {
    BlockStyle style;
    style.sizes = sizes;
    style.names = looks.names;
    style.fifths = handout.fifths;
    style.instrument = handout.instrument.get();
    if (handout.instrument) style.signs = signs_used(handout);
    style.fresh = handout.fresh;
    style.taps = handout.taps;
    return style;
}

std::vector<Piece> lines_as_pieces(const std::vector<PartLines>& parts, const BlockStyle& style) {
    std::vector<Piece> pieces;
    for (const PartLines& part : parts) {
        pieces.push_back(heading(part.heading.empty() ? "The tune" : part.heading, part.how_often));
        for (const BlockLine& line : part.lines)
            pieces.push_back({draw(line, style, kWidth).svg(height_of(style)), height_of(style) + style.sizes.gap});
        // No line of a part stands alone on a page.
        if (part.lines.size() > 1) pieces.back().may_begin_page = false;
        if (part.lines.size() > 2) pieces[pieces.size() - part.lines.size()].keeps_with_next = true;
    }
    return pieces;
}

const BlockBar* bar_numbered(const TuneHandout& handout, int number) {
    for (const answers::BlockPart& part : handout.blocks.parts)
        for (const BlockBar& bar : part.bars)
            if (bar.number == number && !bar.is_pickup) return &bar;
    return nullptr;
}

// The hardest bar, wide, to go round and round.
std::vector<Piece> practice(const TuneHandout& handout, BlockStyle style, double width) {
    const BlockBar* bar = handout.hardest_bar ? bar_numbered(handout, *handout.hardest_bar) : nullptr;
    if (bar == nullptr) return {};
    const std::vector<PartLines> alone{{"", "", {BlockLine{std::nullopt, {*bar}, {""}, 0}}}};
    style.is_of_tune = false;
    style = fitted(style, alone, width);
    return {heading(fmt::format("Practise bar {} alone", *handout.hardest_bar)),
            {draw(alone.front().lines.front(), style, width).svg(height_of(style)), height_of(style) + 1}};
}

// Where the notes lie, for what cannot be drawn.
std::vector<Piece> in_words_alone(const TuneHandout& handout, const Looks& looks, double width) {
    const instruments::Instrument& instrument = *handout.instrument;
    if (!report::can_be_seen(instrument)) return {};
    std::vector<Piece> pieces{heading("The notes in it")};
    for (const int midi : handout.facts.needed.midi_numbers())
        if (const instruments::InstrumentNote* note = instrument.note(midi))
            pieces.push_back(text_piece(in_words(midi, handout.fifths, looks.names) + ": " +
                                            note->ways.front().fingering + (handout.fresh.has(midi) ? " (new)" : ""),
                                        kLegend, width));
    return pieces;
}

std::vector<Piece> picture(const TuneHandout& handout, const Looks& looks, double width) {
    if (!handout.instrument) return {};
    const InstrumentNotes notes{handout.facts.needed.without(handout.fresh), handout.fresh, handout.fifths,
                                looks.names};
    const auto figure = draw_instrument(*handout.instrument, notes, width);
    if (!figure) return in_words_alone(handout, looks, width);
    return {heading("The notes in it", handout.fresh.empty() ? "" : "framed: new"),
            {figure->svg(), figure->height + 1}};
}

// The practice bar and the picture; side by side where both are narrow, and then all in the first.
struct Helps {
    std::vector<Piece> practice, picture;
};

Helps helps(const TuneHandout& handout, const Looks& looks, const BlockStyle& style) {
    if (looks.is_large) return {practice(handout, style, kWidth), picture(handout, looks, kWidth)};
    const bool is_narrow =
        handout.instrument && (handout.instrument->rows.empty() || is_on_strings(*handout.instrument));
    if (is_narrow) {
        std::vector<Piece> left = practice(handout, style, kBarWidth);
        std::vector<Piece> right = picture(handout, looks, left.empty() ? kWidth : kColumnsWidth);
        if (left.empty() || right.empty()) return {left, right};
        return {{side_by_side(left, kBarWidth, right, kColumnsWidth)}, {}};
    }
    const std::vector<Piece> bar = practice(handout, style, kHalf);
    const std::vector<Piece> how{heading("How"), text_piece(kHowToPractise, kPlain, kHalf)};
    return {bar.empty() ? bar : std::vector<Piece>{side_by_side(bar, kHalf, how, kHalf)},
            picture(handout, looks, kWidth)};
}

std::vector<Piece> head(const TuneHandout& handout, const Looks& looks, const BlockStyle& style) {
    std::vector<Piece> pieces{titled(tune::title_of(handout.record), who_in_words(handout))};
    pieces.push_back(text_piece(facts_in_words(handout, looks.names), kFacts));
    pieces.push_back(text_piece(legend_in_words(handout, looks.names, style.signs), kLegend));
    return pieces;
}

// What stands on the pages in one size.
struct Arrangement {
    std::vector<Piece> top, lines;
    Helps helps;

    double tune() const { return height_of(top) + height_of(lines); }
    double with_practice() const { return tune() + height_of(helps.practice); }
    double all() const { return with_practice() + height_of(helps.picture); }
};

Arrangement arranged(const TuneHandout& handout, const Looks& looks, const std::vector<PartLines>& parts,
                     BlockStyle style) {
    style = fitted(style, parts, kWidth);
    return {head(handout, looks, style), lines_as_pieces(parts, style), helps(handout, looks, style)};
}

// The sizes that may be tried, the greatest first: those in which every name has room as it is, then closer.
std::vector<BlockSizes> sizes_for(const std::vector<PartLines>& parts, const BlockStyle& style, bool is_large) {
    if (is_large) return {kLarge};
    std::vector<BlockSizes> sizes;
    BlockStyle strict = fitted(style, parts, kWidth);
    strict.sizes.small_em = strict.sizes.letter_em;
    if (has_room(parts, strict)) sizes.push_back(kUsual);
    sizes.push_back(kSmall);
    std::size_t lines = 0;
    for (const PartLines& part : parts) lines += part.lines.size();
    if (lines <= kCompactLines) sizes.push_back(kCompact);
    return sizes;
}

// One page with all that helps; then without the picture, then for the tune alone; failing that as many as it takes.
Arrangement best(const TuneHandout& handout, const Looks& looks, const std::vector<PartLines>& parts,
                 const BlockStyle& style, double room) {
    std::vector<Arrangement> tried;
    for (const BlockSizes& sizes : sizes_for(parts, style, looks.is_large)) {
        BlockStyle sized = style;
        sized.sizes = sizes;
        tried.push_back(arranged(handout, looks, parts, sized));
    }
    for (const auto height : {&Arrangement::all, &Arrangement::with_practice, &Arrangement::tune})
        for (Arrangement& one : tried)
            if ((one.*height)() <= room) return std::move(one);
    return std::move(tried.front());
}

}  // namespace

TunePages tune_pages(const TuneHandout& handout, const Looks& looks, const std::string& whose) {
    const BlockStyle style = style_of(handout, looks, looks.is_large ? kLarge : kUsual);
    const std::size_t across = bars_across(handout.blocks, style, kWidth);
    const std::vector<PartLines> parts =
        cut(handout.blocks, looks.is_large ? std::min<std::size_t>(2, across) : across);
    const Foot foot{caution_for(handout.instrument.get()), footer_in_words(handout, whose),
                    tune::title_of(handout.record) + (handout.player.empty() ? "" : ", " + handout.player)};
    const double room = room_above(foot);
    Arrangement arrangement = best(handout, looks, parts, style, room);

    // Fingerings stand before the tune, as its legend; buttons behind it, for looking up.
    const bool is_whole = arrangement.all() <= room;
    const bool is_legend = is_whole && handout.instrument && handout.instrument->rows.empty();
    std::vector<Piece> pieces = std::move(arrangement.top);
    if (is_legend) append(pieces, std::move(arrangement.helps.practice));
    append(pieces, std::move(arrangement.lines));
    // With room for one of the two the practice bar stands with the tune; else both go overleaf, the picture first.
    const bool is_practice_here = !is_whole && height_of(pieces) + height_of(arrangement.helps.practice) <= room;
    if (is_practice_here) append(pieces, std::move(arrangement.helps.practice));
    append(pieces, std::move(arrangement.helps.picture));
    if (!is_legend && !is_practice_here) append(pieces, std::move(arrangement.helps.practice));
    std::vector<Page> pages = to_pages(pieces, room);
    if (looks.engrave) {
        append(pieces, staves(handout, across, looks.engrave));
        std::vector<Page> with_staves = to_pages(std::move(pieces), room);
        if (looks.staff_costs_page || with_staves.size() == pages.size()) pages = std::move(with_staves);
    }
    return {std::move(pages), foot};
}

}  // namespace paper
