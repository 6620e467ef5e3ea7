// Tested by block_lines_test.cc.
#include "paper/block_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "music/pitch.h"
#include "paper/strip.h"

namespace paper {

using answers::Block;
using answers::BlockBar;

namespace {

constexpr double kBarLine = 0.9, kBeatEdge = 0.8, kNewFrame = 1.1;  // mm
constexpr double kShortestLine = 2.2;                               // mm: a shorter one reads as a hyphen
constexpr double kHoldWord = 12, kRestWord = 8;                     // mm from which a block says it

double quaver(const BlockStyle& style) { return style.whole_note / 8; }

// Where the letter of a block stands: over its first quaver, but never beyond its block.
double letter_of(double x, double width, double name, const BlockStyle& style) {
    return x + std::max(std::min(width, quaver(style)), std::min(width, name + 0.8)) / 2;
}

double blocks_height(const BlockStyle& style) {
    return style.sizes.block + (style.has_high ? style.sizes.step : 0) + (style.has_low ? style.sizes.step : 0);
}

bool is_in_threes(const music::Duration& length) { return length.denominator() % 3 == 0; }

std::string length_in_words(const music::Duration& length) {
    const auto quavers = product(length, {8, 1});
    if (!quavers || *quavers == music::Duration{1, 1}) return {};
    return " for " + music::to_string(*quavers);
}

std::string bar_in_words(const BlockBar& bar, const BlockStyle& style) {
    std::string words = bar.is_pickup ? "lead-in: " : fmt::format("bar {}: ", bar.number);
    for (std::size_t at = 0; at < bar.blocks.size(); ++at) {
        const Block& block = bar.blocks[at];
        words += at > 0 ? ", " : "";
        words += block.kind == Block::Kind::rest   ? "rest"
                 : block.kind == Block::Kind::held ? "hold"
                                                   : in_words(block.midi, style.fifths, style.names);
        words += length_in_words(block.length);
        if (block.kind == Block::Kind::struck && style.fresh.has(block.midi)) words += " (new)";
    }
    return words;
}

std::string line_in_words(const BlockLine& line, const BlockStyle& style) {
    std::string words = "Lengths in quavers. ";
    if (line.lead_in) words += bar_in_words(*line.lead_in, style) + "; ";
    for (std::size_t at = 0; at < line.bars.size(); ++at)
        words += (at > 0 ? "; " : "") + bar_in_words(line.bars[at], style);
    return words + ".";
}

std::string name_of(const BlockLine& line) {
    if (line.bars.empty()) return "lead-in";
    const int first = line.bars.front().number;
    const int last = line.bars.back().number;
    return first == last ? fmt::format("bar {}", first) : fmt::format("bars {} to {}", first, last);
}

class LinePen {
public:
    LinePen(const BlockLine& line, const BlockStyle& style, double width)
        : line_(line),
          style_(style),
          sizes_(style.sizes),
          drawing_(width, name_of(line), line_in_words(line, style)),
          foot_(sizes_.label_row),
          blocks_(foot_ + sizes_.foot_row),
          signs_(blocks_ + blocks_height(style)),
          strip_(signs_ + sign_height(style.signs, sizes_.sign_em)),
          bottom_(height_of(style)),
          arm_(strip_ + 0.3, sizes_.strip_row - 0.6, sizes_.strip_em) {}

    Drawing draw() && {
        if (line_.lead_in) {
            const double width = whole_notes(line_.lead_in->length) * style_.whole_note;
            draw_bar(*line_.lead_in, style_.lead_in - width, "");
        }
        double x = style_.lead_in;
        for (std::size_t at = 0; at < line_.bars.size(); ++at) {
            draw_bar(line_.bars[at], x, at < line_.labels.size() ? line_.labels[at] : "");
            x += whole_notes(line_.bars[at].length) * style_.whole_note;
        }
        if (line_.spare > 0) {
            const double width = line_.spare * style_.whole_note;
            drawing_.dashed_frame(x, middle_top(), width, sizes_.block);
            put_in_foot(x + std::min(width, quaver(style_)) / 2, "&", Weight::regular);
            x += width;
        }
        bar_line(x);
        arm_.end(drawing_, x);
        return std::move(drawing_);
    }

private:
    double middle_top() const { return blocks_ + (style_.has_high ? sizes_.step : 0); }
    double top_of(const NoteLetters& letters) const {
        return middle_top() - (letters.octave > 0 ? sizes_.step : letters.octave < 0 ? -sizes_.step : 0);
    }

    void bar_line(double x) {
        arm_.bar_line(x);
        drawing_.line(x, foot_, x, bottom_, kBarLine);
    }

    void draw_bar(const BlockBar& bar, double x, const std::string& label) {
        const double begin = x;
        label_bar(bar, x, label);
        tap(bar, x);
        for (std::size_t at = 0; at < bar.blocks.size(); ++at) {
            const double width = whole_notes(bar.blocks[at].length) * style_.whole_note;
            draw_block(bar, bar.blocks[at], x, width);
            x += width;
        }
        bracket_threes(bar, begin);
        if (style_.signs.lanes > 1 || style_.signs.has_numbers || style_.signs.holes > 0)
            drawing_.line(begin, strip_, x, strip_, kThin);
        bar_line(begin);
    }

    void label_bar(const BlockBar& bar, double x, const std::string& label) {
        if (bar.is_pickup && bar.number == 0) return;
        const double y = sizes_.label_row - 1.1;
        const std::string number = bar.is_pickup ? "" : std::to_string(bar.number);
        drawing_.words(x + 0.3, y, number, sizes_.label_em * 0.9);
        const double after = x + 0.3 + sizes_.label_em * 0.9 * width_of(number, Weight::regular) + 1.2;
        if (!label.empty()) drawing_.words(after, y, label, sizes_.label_em * 0.9, Weight::bold);
    }

    // What the foot does, over the letters it falls on.
    void tap(const BlockBar& bar, double x) {
        if (style_.taps == 0 || bar.meter.is_free()) return;
        const double half = std::min(quaver(style_), 9.0 * sizes_.scale) / 2;
        if (bar.is_pickup) return put_in_foot(x + half, "&", Weight::regular);
        const double whole = whole_notes(bar.meter.bar_length());
        const double beat = whole / style_.taps;
        const double length = whole_notes(bar.length);
        for (int at = 0; at < style_.taps; ++at) {
            if (at * beat > length - 1e-6) break;
            const double middle = x + at * beat * style_.whole_note + half;
            if (at == 0) {
                drawing_.disc(middle, foot_ + sizes_.foot_row / 2, 1.75 * sizes_.scale);
                drawing_.words(middle, foot_ + sizes_.foot_row / 2 + 1.08 * sizes_.scale, "1", 3.0 * sizes_.scale,
                               Weight::bold, Anchor::middle, Ink::white);
                taken_.push_back(middle);
            } else {
                put_in_foot(middle, std::to_string(at + 1), Weight::bold);
            }
            const bool is_in_two = !bar.meter.is_compound() && beat > 0.2;
            if (is_in_two && beat * style_.whole_note > 16 && (at + 0.5) * beat < length - 1e-6)
                put_in_foot(middle + beat / 2 * style_.whole_note, "&", Weight::regular);
        }
    }

    void put_in_foot(double x, std::string_view text, Weight weight) {
        drawing_.words(x, foot_ + sizes_.foot_row / 2 + 1.1 * sizes_.scale, text, 3.1 * sizes_.scale, weight,
                       Anchor::middle);
        taken_.push_back(x);
    }

    bool is_free(double x) const {
        return std::none_of(taken_.begin(), taken_.end(),
                            [&](double other) { return std::abs(other - x) < 5.2 * sizes_.scale; });
    }

    void draw_block(const BlockBar& bar, const Block& block, double x, double width) {
        if (block.kind == Block::Kind::rest) {
            arm_.end(drawing_, x);
            drawing_.begin("class", "rest");
            drawing_.dashed_frame(x, middle_top(), width, sizes_.block);
            if (width >= kRestWord)
                drawing_.words(x + width / 2, middle_top() + sizes_.block / 2 + 1.1, "rest", 3.2, Weight::regular,
                               Anchor::middle);
            else
                drawing_.line(x + width / 2 - 1, middle_top() + sizes_.block / 2, x + width / 2 + 1,
                              middle_top() + sizes_.block / 2, 0.55);
            drawing_.end();
            return;
        }
        const NoteLetters letters = letters_of(block.midi, style_.fifths, style_.names);
        const std::string note = music::to_string(music::spell_midi(block.midi, style_.fifths));
        const double top = top_of(letters);
        const bool is_held = block.kind == Block::Kind::held;
        drawing_.begin(!style_.is_of_tune ? "data-drill" : is_held ? "data-held" : "data-note", note);
        drawing_.frame(x, top, width, sizes_.block);
        if (on_beat(bar, block)) drawing_.line(x, top, x, top + sizes_.block, kBeatEdge);
        const double middle = top + sizes_.block / 2;
        if (is_held) {
            if (width >= kHoldWord) {
                drawing_.line(x, middle, x + width / 2 - 5, middle, 0.55);
                drawing_.words(x + width / 2, middle + 1.1, "hold", 3.2, Weight::regular, Anchor::middle);
                drawing_.line(x + width / 2 + 5, middle, x + width - 1.4, middle, 0.55);
            } else {
                drawing_.line(x, middle, x + width - 1.4, middle, 0.55);
            }
        } else {
            draw_struck(block, letters, x, width, middle);
        }
        drawing_.end();
    }

    void draw_struck(const Block& block, const NoteLetters& letters, double x, double width, double middle) {
        const bool is_fresh = style_.fresh.has(block.midi);
        const double em = has_room(block, style_, sizes_.letter_em) ? sizes_.letter_em : sizes_.small_em;
        const double at = letter_of(x, width, width_of(letters, em), style_);
        const double dots = letters.octave > 0 ? 0.8 : letters.octave < 0 ? -0.8 : 0;
        const double base = middle + em * 0.365 + dots * sizes_.scale;
        paper::draw(drawing_, letters, at, base, em);
        draw_octave(drawing_, letters, at, base, em);
        const double line_from = letters.name.empty() ? at + 1.5 : at + width_of(letters, em) / 2 + 1.1;
        const double line_to = x + width - 1.4;
        if (width > 1.4 * quaver(style_) && line_to - line_from > kShortestLine)
            drawing_.line(line_from, middle, line_to, middle, 0.55);
        if (is_fresh) {
            drawing_.frame(x, middle - sizes_.block / 2, width, sizes_.block, kNewFrame);
            if (!is_new_said_ && is_free(at)) {
                drawing_.words(at, foot_ + sizes_.foot_row / 2 + 1.1, "new", 2.9 * sizes_.scale, Weight::bold,
                               Anchor::middle);
                taken_.push_back(at);
                is_new_said_ = true;
            }
        }
        if (!style_.instrument) return;
        if (!block.has_way) {
            arm_.end(drawing_, x);
            drawing_.words(at, signs_ + sizes_.sign_em * 1.1, "?", sizes_.sign_em, Weight::bold, Anchor::middle);
            return;
        }
        const WaySign sign = sign_of(*style_.instrument, block.way);
        draw_sign(drawing_, sign, style_.signs, at, signs_, sizes_.sign_em);
        arm_.add(drawing_, sign, x);
    }

    bool on_beat(const BlockBar& bar, const Block& block) const {
        if (style_.taps == 0 || bar.meter.is_free() || bar.is_pickup || !(music::Duration() < block.at)) return false;
        const double beats = whole_notes(block.at) * style_.taps / whole_notes(bar.meter.bar_length());
        return std::abs(beats - std::round(beats)) < 1e-6;
    }

    void bracket_threes(const BlockBar& bar, double x) {
        double from = -1;
        double total = 0;
        std::size_t count = 0;
        double at = x;
        for (const Block& block : bar.blocks) {
            const double length = whole_notes(block.length);
            if (is_in_threes(block.length)) {
                if (count == 0) from = at;
                total += length;
                ++count;
                // A group is whole when it lasts as long as plain notes do.
                if (count >= 2 && std::abs(total * 32 - std::round(total * 32)) < 1e-6) {
                    bracket(from, at + length * style_.whole_note);
                    count = 0;
                    total = 0;
                }
            } else {
                count = 0;
                total = 0;
            }
            at += length * style_.whole_note;
        }
    }

    void bracket(double from, double to) {
        const double y = blocks_ - 0.5;
        const double middle = (from + to) / 2;
        drawing_.line(from + 0.6, y, middle - 1.6, y, kThin);
        drawing_.line(middle + 1.6, y, to - 0.6, y, kThin);
        drawing_.words(middle, y + 0.9, "3", 2.8, Weight::bold, Anchor::middle);
    }

    const BlockLine& line_;
    const BlockStyle& style_;
    const BlockSizes& sizes_;
    Drawing drawing_;
    double foot_, blocks_, signs_, strip_, bottom_;  // upper edges of the floors
    std::vector<double> taken_;                      // places in the foot row
    Strip arm_;
    bool is_new_said_ = false;
};

}  // namespace

double whole_notes(const music::Duration& length) {
    return static_cast<double>(length.numerator()) / static_cast<double>(length.denominator());
}

double length_of(const BlockLine& line) {
    double length = line.spare;
    for (const BlockBar& bar : line.bars) length += whole_notes(bar.length);
    return length;
}

double height_of(const BlockStyle& style) {
    const BlockSizes& sizes = style.sizes;
    return sizes.label_row + sizes.foot_row + blocks_height(style) + sign_height(style.signs, sizes.sign_em) +
           (style.signs.has_strip ? sizes.strip_row : 0) + 0.3;
}

bool has_room(const Block& block, const BlockStyle& style, double em) {
    if (block.kind != Block::Kind::struck) return true;
    const double edges = kThin + (style.fresh.has(block.midi) ? kNewFrame / 2 : 0);
    // In the smallest type fonts that are wider may touch the edge.
    const double stretch = em > style.sizes.small_em ? kOtherFonts : 1;
    return width_of(letters_of(block.midi, style.fifths, style.names), em) * stretch + edges <=
           whole_notes(block.length) * style.whole_note;
}

Drawing draw(const BlockLine& line, const BlockStyle& style, double width) {
    return LinePen(line, style, width).draw();
}

}  // namespace paper
