// Tested by figures_test.cc.
#include "paper/instrument_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "paper/way_sign.h"

namespace paper {

using instruments::Direction;
using instruments::Instrument;
using instruments::InstrumentNote;
using instruments::Way;

namespace {

constexpr double kEm = 4.2, kSmallEm = 3.4;  // of letters, mm
constexpr double kNumberEm = 3.2;
constexpr double kTurningRow = 19.8, kRow = 14.2;  // of buttons: with what both directions give, and with one

music::NoteSet shown(const Instrument& instrument, const InstrumentNotes& notes) {
    return (notes.have | notes.fresh) & instrument.note_set();
}

std::string described(const Instrument& instrument, const InstrumentNotes& notes) {
    std::string words;
    for (const int midi : shown(instrument, notes).midi_numbers()) {
        words += (words.empty() ? "" : "; ") + in_words(midi, notes.fifths, notes.names) + ": " +
                 instrument.note(midi)->ways.front().fingering;
        if (notes.fresh.has(midi)) words += " (new)";
    }
    return words + ".";
}

// Several notes in one place never are: the direction of the air parts them. A dash for one that is not there yet.
void put_note(Drawing& drawing, int midi, const InstrumentNotes& notes, double x, double y, double em) {
    const bool is_fresh = notes.fresh.has(midi);
    if (!is_fresh && !notes.have.has(midi)) {
        drawing.line(x - 0.8, y - em * 0.36, x + 0.8, y - em * 0.36);
        return;
    }
    const Names names = notes.names == Names::none ? Names::letters : notes.names;
    const NoteLetters letters = letters_of(midi, notes.fifths, names);
    draw(drawing, letters, x, y, em);
    draw_octave(drawing, letters, x, y, em);
    if (!is_fresh) return;
    const double wide = std::max(width_of(letters, em) + 2.2, 6.4);
    drawing.frame(x - wide / 2, y - em * 0.73 - 1.9, wide, em * 0.73 + 3.6, 0.9);
}

// --- rows of buttons and of holes that are blown

struct Button {
    std::string number;
    std::optional<int> press, draw;  // of what does not turn with the air: press alone
};
struct ButtonRow {
    std::string label;
    WaySign::Shape shape = WaySign::Shape::plain;
    std::map<int, Button> buttons;  // by number
    double shift = 0;               // in buttons
};

int place_of(const Way& way) {
    const std::string& text = way.position.empty() ? way.row : way.position;
    const std::size_t digit = text.find_first_of("0123456789");
    return digit == std::string::npos ? 0 : std::atoi(text.c_str() + digit);
}

std::string row_name(const Instrument& instrument, std::size_t row) {
    const std::string& sign = instrument.row_signs.empty() ? std::string() : instrument.row_signs[row];
    if (sign == "i") return "inner row";
    if (sign == "o") return "outer row";
    return instrument.rows[row];
}

std::vector<ButtonRow> rows_of(const Instrument& instrument, const InstrumentNotes& notes) {
    std::vector<ButtonRow> rows;
    const bool is_mouth = instrument.rows.front().starts_with("hole ");
    const auto row_at = [&](const Way& way) -> ButtonRow& {
        const std::size_t at =
            is_mouth ? 0
                     : static_cast<std::size_t>(std::find(instrument.rows.begin(), instrument.rows.end(), way.row) -
                                                instrument.rows.begin());
        return rows[at];
    };
    if (is_mouth) {
        rows.push_back({"hole", WaySign::Shape::plain, {}, 0});
    } else {
        for (std::size_t row = 0; row < instrument.rows.size(); ++row)
            rows.push_back({instrument.rows.size() > 1 ? row_name(instrument, row) : "", WaySign::Shape::plain, {}, 0});
    }
    for (const InstrumentNote& note : instrument.notes)
        for (const Way& way : note.ways) {
            if (way.technique.find("bend") != std::string::npos && !notes.have.has(note.written) &&
                !notes.fresh.has(note.written))
                continue;
            ButtonRow& row = row_at(way);
            row.shape = sign_of(instrument, way).shape;
            Button& button = row.buttons[place_of(way)];
            button.number = std::to_string(place_of(way));
            (way.direction == Direction::draw ? button.draw : button.press) = note.written;
        }
    return rows;
}

bool is_in_use(const Button& button, const InstrumentNotes& notes) {
    const music::NoteSet all = notes.have | notes.fresh;
    return (button.press && all.has(*button.press)) || (button.draw && all.has(*button.draw));
}

// From x on; returns the row below.
double draw_row(Drawing& drawing, const ButtonRow& row, const Instrument& instrument, const InstrumentNotes& notes,
                int first, int last, double x, double pitch, double y) {
    const bool turns = instrument.is_bisonoric();
    const double em = pitch >= 9 ? kEm : kSmallEm;
    const double middle = y + 10.2;
    const double size = std::min(5.4, pitch * 0.62);
    for (const auto& [place, button] : row.buttons) {
        if (place < first || place > last) continue;
        const double at = x + (place - first + 0.5 + row.shift) * pitch;
        if (button.press) put_note(drawing, *button.press, notes, at, middle - size / 2 - 1.9, em);
        if (turns && button.draw) put_note(drawing, *button.draw, notes, at, middle + size / 2 + em * 0.73 + 1.9, em);
        if (row.shape == WaySign::Shape::square)
            drawing.frame(at - size / 2, middle - size / 2, size, size);
        else if (row.shape == WaySign::Shape::triangle)
            drawing.triangle(at, middle - 0.2, size * 1.3, size * 1.16);
        else
            drawing.circle(at, middle, size / 2);
        drawing.words(at, middle + kNumberEm * 0.36, button.number, kNumberEm, Weight::bold, Anchor::middle);
    }
    return y + (turns ? kTurningRow : kRow);
}

std::optional<Figure> draw_buttons(const Instrument& instrument, const InstrumentNotes& notes, double width) {
    std::vector<ButtonRow> rows = rows_of(instrument, notes);
    int first = 99, last = 0;
    for (const ButtonRow& row : rows)
        for (const auto& [place, button] : row.buttons)
            if (is_in_use(button, notes)) first = std::min(first, place), last = std::max(last, place);
    if (last == 0) return std::nullopt;
    const bool has_hands = instrument.rows.front().starts_with("L ");
    if (has_hands) {  // a row of which neither hand has a note is left out
        std::set<std::string> used;
        for (const ButtonRow& row : rows)
            for (const auto& [place, button] : row.buttons)
                if (is_in_use(button, notes)) used.insert(row.label.substr(2));
        std::erase_if(rows, [&](const ButtonRow& row) { return used.count(row.label.substr(2)) == 0; });
    }
    if (!has_hands && width > 120) {  // there is room for all of it
        for (const ButtonRow& row : rows)
            for (const auto& [place, button] : row.buttons)
                first = std::min(first, place), last = std::max(last, place);
    }
    // Of two rows the shorter lies between the buttons of the longer.
    if (rows.size() == 2 && !has_hands)
        for (ButtonRow& row : rows)
            if (row.buttons.size() < rows[&row == &rows[0] ? 1 : 0].buttons.size()) row.shift = 0.5;
    Drawing drawing(width, instrument.title, described(instrument, notes));
    const bool turns = instrument.is_bisonoric();
    const double label = instrument.rows.size() > 1 || turns ? 21 : 2;
    double y = 0;
    if (!has_hands) {
        const double pitch = std::min(14.0, (width - label) / (last - first + 1.5));
        for (const ButtonRow& row : rows) {
            if (turns) {
                drawing.words(0, y + 5.4, instrument.rows.front().starts_with("hole") ? "blow" : "press", 3.2);
                drawing.words(0, y + 17.4, "draw", 3.2);
            }
            drawing.words(0, y + 11.4, row.label, 3.5, Weight::bold);
            y = draw_row(drawing, row, instrument, notes, first, last, label, pitch, y);
        }
        return Figure{std::move(drawing), y};
    }
    const double half = (width - label - 6) / 2;
    const double pitch = std::min(13.0, half / (last - first + 1.2));
    drawing.words(label + half / 2, 4, "left hand", 3.5, Weight::bold, Anchor::middle);
    drawing.words(label + half + 6 + half / 2, 4, "right hand", 3.5, Weight::bold, Anchor::middle);
    // A row of the right hand stands beside the left hand's of the same name.
    std::vector<std::string> names;
    const double row_height = turns ? kTurningRow : kRow;
    for (const ButtonRow& row : rows) {
        const bool is_left = row.label.starts_with("L ");
        const std::string name = row.label.substr(2);
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
        const auto at = std::find(names.begin(), names.end(), name) - names.begin();
        const double row_y = 3 + row_height * static_cast<double>(at);
        if (is_left) {
            if (turns) drawing.words(0, row_y + 5.4, "press", 3.2), drawing.words(0, row_y + 17.4, "draw", 3.2);
            drawing.words(0, row_y + 11.4, name == "acc" ? "top row" : name + " row", 3.5, Weight::bold);
        }
        draw_row(drawing, row, instrument, notes, first, last, is_left ? label : label + half + 6, pitch, row_y);
    }
    return Figure{std::move(drawing), 3 + row_height * static_cast<double>(names.size())};
}

// --- columns of holes

std::optional<Figure> draw_columns(const Instrument& instrument, const InstrumentNotes& notes, double width) {
    const std::vector<int> midis = shown(instrument, notes).midi_numbers();
    const SignLayout layout = layout_of(instrument);
    const double column = sign_height(layout, 4.4);
    const double pitch = std::clamp(width / static_cast<double>(midis.size()), 7.4, 16.0);
    const auto across = static_cast<std::size_t>(width / pitch);
    Drawing drawing(width, instrument.title, described(instrument, notes));
    double y = 0;
    for (std::size_t at = 0; at < midis.size(); ++at) {
        if (at > 0 && at % across == 0) y += column + 12.5;
        const double x = (static_cast<double>(at % across) + 0.5) * pitch;
        const Way& way = instrument.note(midis[at])->ways.front();
        InstrumentNotes plain = notes;
        plain.have = notes.have | notes.fresh;
        plain.fresh = {};
        put_note(drawing, midis[at], plain, x, y + 6.4, pitch > 9 ? kEm : kSmallEm);
        draw_sign(drawing, sign_of(instrument, way), layout, x, y + 8.4, 4.4);
        if (!notes.fresh.has(midis[at])) continue;
        drawing.frame(x - pitch / 2 + 0.5, y + 0.6, pitch - 1, column + 8, 0.9);
        drawing.words(x, y + column + 11.6, "new", 2.9, Weight::bold, Anchor::middle);
    }
    return Figure{std::move(drawing), y + column + 12.2};
}

// --- strings and fingers

std::optional<Figure> draw_strings(const Instrument& instrument, const InstrumentNotes& notes, double width) {
    const bool is_fretted = instrument.notes.front().ways.front().technique == "fretted";
    std::vector<std::string> places;  // from the nut on, in the order of what they sound
    std::map<std::string, int> depth;
    std::vector<std::string> strings(instrument.rows.rbegin(), instrument.rows.rend());  // the lowest at the left
    std::map<std::string, int> open;
    for (const InstrumentNote& note : instrument.notes)
        for (const Way& way : note.ways)
            if (way.position == "open" || way.position == "0") open.emplace(way.row, note.written);
    const music::NoteSet in_use = shown(instrument, notes);
    int deepest = 0;
    for (const InstrumentNote& note : instrument.notes)
        for (const Way& way : note.ways) {
            const int semitones = note.written - open[way.row];
            const bool is_new_place = depth.emplace(way.position, semitones).second;
            if (is_new_place) places.push_back(way.position);
            if (&way == &note.ways.front() && in_use.has(note.written)) deepest = std::max(deepest, semitones);
        }
    std::stable_sort(places.begin(), places.end(), [&](const auto& a, const auto& b) { return depth[a] < depth[b]; });
    std::erase_if(places, [&](const std::string& place) { return depth[place] > deepest; });
    const double label = is_fretted ? 14 : 17;
    const double pitch = std::min(17.0, (width - label) / static_cast<double>(strings.size()));
    constexpr double kPlace = 8.2, kTop = 7;
    Drawing drawing(width, instrument.title, described(instrument, notes));
    const auto x_of = [&](const std::string& string) {
        const auto at = std::find(strings.begin(), strings.end(), string) - strings.begin();
        return label + (static_cast<double>(at) + 0.5) * pitch;
    };
    const double bottom = kTop + kPlace * static_cast<double>(places.size()) + 1;
    for (std::size_t string = 0; string < strings.size(); ++string) {
        const double x = x_of(strings[string]);
        drawing.words(x, 4, strings[string], 3.6, Weight::bold, Anchor::middle);
        drawing.line(x, kTop - 1, x, bottom, 0.9 - 0.13 * static_cast<double>(std::min<std::size_t>(string, 4)));
    }
    for (std::size_t place = 0; place < places.size(); ++place) {
        const double y = kTop + kPlace * (static_cast<double>(place) + 0.5);
        drawing.words(0, y + 1.2, is_fretted && places[place] != "open" ? "fret " + places[place] : places[place], 3.2);
        if (place == 0)
            drawing.line(label, y + kPlace / 2, label + pitch * static_cast<double>(strings.size()), y + kPlace / 2,
                         1.1);
    }
    for (const int midi : in_use.midi_numbers()) {
        const Way& way = instrument.note(midi)->ways.front();
        const auto place = std::find(places.begin(), places.end(), way.position);
        if (place == places.end()) continue;
        const double y = kTop + kPlace * (static_cast<double>(place - places.begin()) + 0.5);
        const double x = x_of(way.row);
        drawing.begin("fill", "#fff");
        drawing.filled(x - 3.4, y - 3.3, 6.8, 6.6);
        drawing.end();
        const Names names = notes.names == Names::none ? Names::letters : notes.names;
        const NoteLetters letters = letters_of(midi, notes.fifths, names);
        draw(drawing, letters, x, y + 1.3, kSmallEm);
        draw_octave(drawing, letters, x, y + 1.3, kSmallEm);
        if (notes.fresh.has(midi))
            drawing.frame(x - 3.6, y - 3.5, 7.2, 7, 0.9);
        else
            drawing.circle(x, y, 3.4);
    }
    return Figure{std::move(drawing), bottom + 1};
}

// --- a harp's strings, with levers

std::optional<Figure> draw_harp(const Instrument& instrument, const InstrumentNotes& notes, double width) {
    const std::vector<int> midis = shown(instrument, notes).midi_numbers();
    const double pitch = std::min(8.4, width / static_cast<double>(midis.size()));
    constexpr double kString = 22;
    Drawing drawing(width, instrument.title, described(instrument, notes));
    for (std::size_t at = 0; at < midis.size(); ++at) {
        const double x = (static_cast<double>(at) + 0.5) * pitch;
        const Way& way = instrument.note(midis[at])->ways.front();
        const char letter = way.row.empty() ? ' ' : way.row.front();
        if (letter == 'F')
            drawing.line(x - 0.45, 8, x - 0.45, kString, kThin), drawing.line(x + 0.45, 8, x + 0.45, kString, kThin);
        else
            drawing.line(x, 8, x, kString, letter == 'C' ? 1.1 : kThin);
        if (way.position == "up") drawing.filled(x + 0.8, 8.4, 1.6, 4);
        if (way.position == "down") drawing.frame(x + 0.8, 10.8, 3.2, 1.5);
        put_note(drawing, midis[at], notes, x, kString + 6.4, kSmallEm);
    }
    return Figure{std::move(drawing), kString + 9.4};
}

}  // namespace

std::optional<Figure> draw_instrument(const Instrument& instrument, const InstrumentNotes& notes, double width) {
    if (shown(instrument, notes).empty()) return std::nullopt;
    const Way& first = instrument.notes.front().ways.front();
    if (first.technique == "voice") return std::nullopt;
    if (instrument.rows.empty()) {
        if (layout_of(instrument).holes == 0) return std::nullopt;
        return draw_columns(instrument, notes, width);
    }
    if (instrument.has_levers()) return draw_harp(instrument, notes, width);
    if (first.technique == "bowed" || first.technique == "fretted") return draw_strings(instrument, notes, width);
    return draw_buttons(instrument, notes, width);
}

}  // namespace paper
