#include "report/words/way_label.h"

#include <fmt/format.h>

#include <algorithm>

namespace report {

using instruments::Instrument;
using instruments::Way;

namespace {

constexpr std::string_view kHole = "hole ";

bool says(const Way& way, std::string_view word) { return way.technique.find(word) != std::string::npos; }

std::string without_blanks(std::string text) {
    std::erase(text, ' ');
    return text;
}

// The sign of a row; its whole name where it has none and there is more than one.
std::string sign_of(const Instrument& instrument, const Way& way) {
    const auto found = std::find(instrument.rows.begin(), instrument.rows.end(), way.row);
    if (found == instrument.rows.end() || instrument.rows.size() < 2) return {};
    const std::string& sign = instrument.row_signs[static_cast<std::size_t>(found - instrument.rows.begin())];
    return sign.empty() ? without_blanks(way.row) : sign;
}

// `2 high` as `2+`, `2 low` as `2-`, `open` as `0`.
std::string short_position(const std::string& position) {
    if (position == "open") return "0";
    const std::size_t blank = position.find(' ');
    if (blank == std::string::npos) return position;
    const std::string word = position.substr(blank + 1);
    return position.substr(0, blank) + (word == "high" ? "+" : word == "low" ? "-" : word.substr(0, 1));
}

bool is_on_a_string(const Way& way) { return way.technique == "bowed" || way.technique == "fretted"; }

// How far a reed is bent: the number its fingering ends in.
std::string bend_of(const Way& way) {
    if (!says(way, "bend")) return {};
    const std::size_t last = way.fingering.find_last_not_of("0123456789");
    return "b" + way.fingering.substr(last + 1);
}

std::string holes_label(const Way& way) {
    const std::size_t end = std::min(way.fingering.find_first_not_of("XOhTt|1234567 half"), way.fingering.size());
    std::string holes = without_blanks(way.fingering.substr(0, end));
    if (says(way, "key")) holes = holes.empty() ? "key" : without_blanks(way.fingering.substr(end));  // `Ebkey`
    if (says(way, "third register")) return holes + "++";
    return says(way, "overblow") ? holes + "+" : holes;
}

}  // namespace

std::string way_label(const Instrument& instrument, const Way& way) {
    if (way.technique == "voice") return {};
    if (way.row.empty()) return holes_label(way);
    if (instrument.has_levers()) return way.row + (way.position == "up" ? "^" : "");
    if (way.row.starts_with(kHole)) return way.row.substr(kHole.size()) + bend_of(way);
    const std::string sign = sign_of(instrument, way);
    return sign + (is_on_a_string(way) && !sign.empty() ? ":" : "") + short_position(way.position);
}

bool can_be_seen(const Instrument& instrument) {
    const auto is_sung = [](const instruments::InstrumentNote& note) {
        return std::all_of(note.ways.begin(), note.ways.end(), [](const Way& way) { return way.technique == "voice"; });
    };
    return !instrument.notes.empty() &&
           !(instrument.rows.empty() && std::all_of(instrument.notes.begin(), instrument.notes.end(), is_sung));
}

std::string label_key(const Instrument& instrument) {
    std::string key;
    const auto say = [&key](const std::string& words) { key += (key.empty() ? "" : ", ") + words; };
    if (instrument.rows.size() > 1 && !instrument.has_levers())
        for (std::size_t row = 0; row < instrument.rows.size(); ++row)
            if (!instrument.row_signs[row].empty() && instrument.row_signs[row] != instrument.rows[row])
                say(instrument.row_signs[row] + " = " + instrument.rows[row]);
    bool has[4]{};
    bool overblows = false;
    bool has_halves = false;
    bool has_finger_words = false;
    for (const auto& note : instrument.notes)
        for (const Way& way : note.ways) {
            has[static_cast<std::size_t>(way.direction)] = true;
            overblows = overblows || (way.row.empty() && says(way, "overblow"));
            has_halves = has_halves || (way.row.empty() && says(way, "half-hole"));
            has_finger_words = has_finger_words || way.position.ends_with(" high") || way.position.ends_with(" low");
        }
    if (has_finger_words) say("+ = high finger, - = low finger, 0 = open string");
    if (instrument.has_levers()) say("^ = lever up");
    if (overblows) say("+ = more breath");
    if (has_halves) say("h = half covered");
    if (has[static_cast<std::size_t>(instruments::Direction::press)]) say("p = press");
    if (has[static_cast<std::size_t>(instruments::Direction::blow)]) say("b = blow");
    if (has[static_cast<std::size_t>(instruments::Direction::draw)]) say("d = draw");
    return key;
}

std::string place_in_words(const instruments::InstrumentNote& note) {
    std::string words;
    for (const instruments::Way& way : note.ways) {
        words += fmt::format("{}{} (hardness {}", words.empty() ? "" : "; or ", way.fingering, way.grade);
        words += way.reason.empty() ? ")" : ": " + way.reason + ")";
    }
    return words;
}

char direction_letter(instruments::Direction direction) noexcept {
    constexpr std::string_view kLetters = " pdb";  // in the order of Direction
    return kLetters[static_cast<std::size_t>(direction)];
}

}  // namespace report
