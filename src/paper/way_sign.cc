// Tested by way_sign_test.cc.
#include "paper/way_sign.h"

#include <algorithm>
#include <string_view>

namespace paper {

using instruments::Direction;
using instruments::Instrument;
using instruments::Way;

namespace {

constexpr std::string_view kHoleRow = "hole ";

// In mm, at the usual size. Source: house choice, seen on a copy of a copy.
constexpr double kHoleRadius = 1.2;
constexpr double kHolePitch = 2.72;
constexpr double kHandGap = 0.9;
constexpr double kUsualNumber = 4.4;  // em of numbers for which these are
constexpr double kWord = 3.4, kWordEm = 2.9;
constexpr std::size_t kLongestWord = 7;  // letters that stand under a block: `G# key`

bool says(const Way& way, std::string_view word) { return way.technique.find(word) != std::string::npos; }

std::size_t row_index(const Instrument& instrument, const Way& way) {
    const auto found = std::find(instrument.rows.begin(), instrument.rows.end(), way.row);
    return static_cast<std::size_t>(found - instrument.rows.begin());
}

bool is_on_string(const Way& way) { return way.technique == "bowed" || way.technique == "fretted"; }

// Rows of a concertina: `L inner`, `R C`.
bool has_hands(const Instrument& instrument) {
    return !instrument.rows.empty() && std::all_of(instrument.rows.begin(), instrument.rows.end(), [](const auto& row) {
        return row.starts_with("L ") || row.starts_with("R ");
    });
}

WaySign::Shape shape_of_row(const Instrument& instrument, const Way& way) {
    const std::size_t row = row_index(instrument, way);
    if (row >= instrument.rows.size()) return WaySign::Shape::plain;
    if (!has_hands(instrument)) {
        const bool is_outer = instrument.rows.size() > 1 && instrument.row_signs[row] == "o";
        return is_outer ? WaySign::Shape::square : WaySign::Shape::plain;
    }
    if (way.row.ends_with("outer")) return WaySign::Shape::square;
    if (way.row.ends_with("inner")) return WaySign::Shape::plain;
    std::size_t in_hand = 0;  // of an Anglo: the row of accidentals, the lower key, the higher one
    for (std::size_t before = 0; before < row; ++before)
        if (instrument.rows[before].front() == way.row.front()) ++in_hand;
    return in_hand == 0 ? WaySign::Shape::triangle : in_hand == 1 ? WaySign::Shape::plain : WaySign::Shape::square;
}

// `XXX|XOO`, with a thumb `X XXX|XXXX`.
void read_marks(std::string_view marks, WaySign& sign) {
    for (std::size_t at = 0; at < marks.size(); ++at) {
        const char mark = marks[at];
        if (mark == ' ' && at == 1) {
            sign.has_thumb = true;
        } else if (mark == '|') {
            sign.holes.push_back(Hole::gap);
        } else if (mark == 'X' || mark == 'O' || mark == 'h') {
            sign.holes.push_back(mark == 'X' ? Hole::covered : mark == 'O' ? Hole::open : Hole::half);
        } else {
            return;
        }
    }
}

// `T 123 4 67`, `t 12`, `2 3456`: a thumb and seven holes, those named are covered.
void read_numbers(std::string_view fingering, WaySign& sign) {
    sign.has_thumb = true;
    sign.holes.assign(9, Hole::open);
    sign.holes[4] = Hole::gap;  // the fourth finger is of the other hand
    for (std::size_t at = 0; at < fingering.size(); ++at) {
        const char mark = fingering[at];
        if (mark == 'T') sign.holes[0] = Hole::covered;
        if (mark == 't') sign.holes[0] = Hole::half;
        if (mark < '1' || mark > '7') continue;
        const auto finger = static_cast<std::size_t>(mark - '0');
        const bool is_half = fingering.substr(at + 1).starts_with("half");
        sign.holes[finger <= 3 ? finger : finger + 1] = is_half ? Hole::half : Hole::covered;
    }
}

void read_fingering(const Way& way, WaySign& sign) {
    const std::string_view fingering = way.fingering;
    if (says(way, "key")) {
        const std::size_t name = fingering.find_last_of("XOh|");
        const std::string_view rest = name == std::string_view::npos ? "" : fingering.substr(name + 1);
        sign.beneath = std::string(rest.substr(std::min(rest.find_first_not_of(' '), rest.size())));
        if (rest.empty()) sign.beneath = "key";
        if (sign.beneath.size() > kLongestWord) sign.beneath.clear();
    }
    if (fingering.starts_with('X') || fingering.starts_with('O') || fingering.starts_with('h'))
        read_marks(fingering, sign);
    else if (!fingering.empty() && fingering.find_first_not_of("Tt1234567 half") == std::string_view::npos)
        read_numbers(fingering, sign);
    if (!sign.holes.empty()) sign.kind = WaySign::Kind::holes;
    sign.breaths = says(way, "third register") ? 2 : says(way, "overblow") ? 1 : 0;
}

void read_finger(const Instrument& instrument, const Way& way, WaySign& sign) {
    sign.kind = WaySign::Kind::number;
    const std::size_t blank = way.position.find(' ');
    sign.digits = way.position == "open" ? "0" : way.position.substr(0, blank);
    if (blank != std::string::npos) sign.beneath = way.position.substr(blank + 1);
    if (sign.beneath == "extended") sign.beneath = "far";
    const std::size_t row = row_index(instrument, way);
    sign.strip = way.row + " string";
    sign.is_dark = row % 2 == 0;
}

}  // namespace

WaySign sign_of(const Instrument& instrument, const Way& way) {
    WaySign sign;
    if (way.technique == "voice" || instrument.has_levers()) return sign;
    if (way.direction != Direction::none) {
        sign.strip = std::string(instruments::direction_token(way.direction));
        sign.is_dark = way.direction != Direction::draw;
    }
    if (way.row.empty()) {
        read_fingering(way, sign);
    } else if (is_on_string(way)) {
        read_finger(instrument, way, sign);
    } else if (way.row.starts_with(kHoleRow)) {
        sign.kind = WaySign::Kind::number;
        sign.digits = way.row.substr(kHoleRow.size());
        if (says(way, "bend")) sign.beneath = "bent";
    } else if (!way.position.empty()) {
        sign.kind = WaySign::Kind::number;
        sign.digits = way.position;
        sign.shape = shape_of_row(instrument, way);
        sign.lane = has_hands(instrument) && way.row.starts_with("R ") ? 1 : 0;
    }
    return sign;
}

std::string row_in_words(const Instrument& instrument, const std::string& row) {
    const auto at = static_cast<std::size_t>(std::find(instrument.rows.begin(), instrument.rows.end(), row) -
                                             instrument.rows.begin());
    const std::string sign = at < instrument.row_signs.size() ? instrument.row_signs[at] : std::string();
    if (sign == "i") return "the inner row";
    if (sign == "o") return "the outer row";
    if (row.ends_with(" acc")) return "the top row";
    if (row.starts_with("L ") || row.starts_with("R ")) return "the " + row.substr(2) + " row";
    return "the " + row;
}

std::string way_in_words(const Instrument& instrument, const Way& way) {
    const WaySign sign = sign_of(instrument, way);
    if (sign.kind == WaySign::Kind::holes) return {};
    if (sign.kind == WaySign::Kind::none) return way.technique == "voice" ? std::string() : way.fingering;
    const std::string air = way.direction == Direction::none ? "" : ", " + sign.strip;
    if (way.row.starts_with(kHoleRow)) return way.row + air + (sign.beneath.empty() ? "" : ", bent");
    if (is_on_string(way)) {
        const bool is_fretted = way.technique == "fretted";
        if (sign.digits == "0") return way.row + " string, open";
        return way.row + " string, " + (is_fretted ? "fret " : "finger ") + sign.digits +
               (sign.beneath.empty() ? "" : " " + sign.beneath);
    }
    const std::string hand = has_hands(instrument) ? (sign.lane == 0 ? "left hand, " : "right hand, ") : "";
    const std::string row = instrument.rows.size() > 1 ? row_in_words(instrument, way.row).substr(4) + ", " : "";
    return hand + row + "button " + sign.digits + air;
}

SignLayout layout_of(const Instrument& instrument) {
    SignLayout layout;
    for (const instruments::InstrumentNote& note : instrument.notes)
        for (const Way& way : note.ways) {
            const WaySign sign = sign_of(instrument, way);
            layout.lanes = std::max(layout.lanes, sign.lane + 1);
            layout.holes = std::max(layout.holes, sign.holes.size());
            layout.has_breath = layout.has_breath || sign.breaths > 0;
            layout.has_words = layout.has_words || !sign.beneath.empty();
            layout.has_strip = layout.has_strip || !sign.strip.empty();
            layout.has_numbers = layout.has_numbers || sign.kind == WaySign::Kind::number;
        }
    return layout;
}

double sign_height(const SignLayout& layout, double em) {
    if (layout.holes > 0) {
        const double scale = std::max(1.0, em / kUsualNumber);
        return scale * (static_cast<double>(layout.holes) * kHolePitch + (layout.has_breath ? 2.6 : 0) + 0.8) +
               (layout.has_words ? kWord : 0);
    }
    if (!layout.has_numbers) return layout.has_words ? kWord + 1.2 : 0;
    return layout.lanes * (em * 1.42) + (layout.has_words ? em * 0.62 : 0);
}

namespace {

void draw_holes(Drawing& drawing, const WaySign& sign, double x, double y, double scale) {
    const double radius = kHoleRadius * scale;
    double at = y + radius + 0.7;
    for (std::size_t hole = 0; hole < sign.holes.size(); ++hole) {
        if (sign.holes[hole] == Hole::gap) {
            at += kHandGap * scale;
            continue;
        }
        const double left = sign.has_thumb && hole == 0 ? x - radius * 1.5 : x;  // the thumb is behind
        if (sign.holes[hole] == Hole::covered) drawing.disc(left, at, radius);
        if (sign.holes[hole] == Hole::open) drawing.circle(left, at, radius - kThin / 2, 0.3);
        if (sign.holes[hole] == Hole::half) drawing.half_disc(left, at, radius - kThin / 2);
        at += kHolePitch * scale;
    }
    for (int plus = 0; plus < sign.breaths; ++plus) {
        const double middle = x + (plus - (sign.breaths - 1) / 2.0) * 2.2 * scale;
        drawing.line(middle - 0.9 * scale, at, middle + 0.9 * scale, at, 0.45);
        drawing.line(middle, at - 0.9 * scale, middle, at + 0.9 * scale, 0.45);
    }
}

}  // namespace

void draw_sign(Drawing& drawing, const WaySign& sign, const SignLayout& layout, double x, double y, double em) {
    if (sign.kind != WaySign::Kind::number) {
        draw_holes(drawing, sign, x, y, std::max(1.0, em / kUsualNumber));
        if (!sign.beneath.empty())
            drawing.words(x, y + sign_height(layout, em) - 0.9, sign.beneath, kWordEm, Weight::bold, Anchor::middle);
        return;
    }
    const double lane = em * 1.42;
    const double middle = y + lane * (sign.lane + 0.5);
    drawing.words(x, middle + em * 0.36, sign.digits, em, Weight::bold, Anchor::middle);
    const double side = std::max(em * 1.18, em * (width_of(sign.digits, Weight::bold) + 0.34));
    if (sign.shape == WaySign::Shape::square) drawing.frame(x - side / 2, middle - em * 0.62, side, em * 1.24);
    if (sign.shape == WaySign::Shape::triangle) drawing.triangle(x, middle - em * 0.08, side * 1.25, em * 1.36);
    if (!sign.beneath.empty())
        drawing.words(x, y + lane * layout.lanes + em * 0.42, sign.beneath, 2.5 * em / kUsualNumber, Weight::regular,
                      Anchor::middle);
}

}  // namespace paper
