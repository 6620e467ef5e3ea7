#include "hands/motions.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cstdlib>
#include <optional>
#include <string_view>

namespace hands {

using instruments::Direction;
using instruments::Instrument;
using instruments::Motion;
using instruments::Way;

namespace {

bool says(const Way& way, std::string_view word) { return way.technique.find(word) != std::string::npos; }

// The button or fret a position begins with; nothing for an open string, which no finger holds.
std::optional<int> place_of(const Way& way) {
    int place = 0;
    const char* end = way.position.data() + way.position.size();
    if (std::from_chars(way.position.data(), end, place).ec != std::errc() || place <= 0) return std::nullopt;
    return place;
}

int row_index(const Instrument& instrument, const Way& way) {
    return static_cast<int>(std::find(instrument.rows.begin(), instrument.rows.end(), way.row) -
                            instrument.rows.begin());
}

// The part of a fingering that shows holes: `X XXX|XOO off knee` gives `X XXX|XOO`.
std::string_view holes_in(std::string_view fingering) {
    const std::size_t end = fingering.find_first_not_of("XOh| ");
    std::string_view holes = fingering.substr(0, end);
    while (!holes.empty() && holes.back() == ' ') holes.remove_suffix(1);
    return holes.find('|') != std::string_view::npos ? holes : std::string_view();
}

// Holes by number, the thumb's first: `T 123 4 67`. Empty for another way of writing.
std::string holes_by_number(std::string_view fingering) {
    std::string covered(8, '-');
    for (const char c : fingering.substr(0, fingering.find("half"))) {
        if (c == 'T' || c == 't')
            covered[0] = c;
        else if (c >= '1' && c <= '7')
            covered[static_cast<std::size_t>(c - '0')] = 'X';
        else if (c != ' ')
            return {};
    }
    return covered;
}

int differing(std::string_view from, std::string_view to) {
    if (from.size() != to.size()) return 0;
    int changed = 0;
    for (std::size_t at = 0; at < from.size(); ++at) changed += from[at] != to[at] ? 1 : 0;
    return changed;
}

}  // namespace

int register_of(const Way& way) {
    if (says(way, "third register")) return 3;
    return says(way, "overblow") || says(way, "pinched") ? 2 : 1;
}

int fingers_changed(const std::string& from, const std::string& to) {
    const std::string_view holes = holes_in(from);
    if (!holes.empty()) return differing(holes, holes_in(to));
    return differing(holes_by_number(from), holes_by_number(to));
}

MotionCounts motions_in(const Way& way) {
    MotionCounts counts{};
    count_of(counts, Motion::half_hole) = says(way, "half-hole") ? 1 : 0;
    count_of(counts, Motion::fork) = says(way, "cross-fingered") ? 1 : 0;
    count_of(counts, Motion::key) = says(way, "key") ? 1 : 0;
    count_of(counts, Motion::bend) = says(way, "bend") ? 1 : 0;
    count_of(counts, Motion::grade) = way.grade - instruments::kEasiestGrade;
    return counts;
}

MotionCounts motions_between(const Instrument& instrument, const Way& from, const Way& to) {
    MotionCounts counts{};
    const bool has_air = from.direction != Direction::none && to.direction != Direction::none;
    count_of(counts, Motion::direction) = has_air && from.direction != to.direction ? 1 : 0;
    if (!from.row.empty() && !to.row.empty()) {
        const int rows = std::abs(row_index(instrument, from) - row_index(instrument, to));
        count_of(counts, Motion::row) = rows > 0 ? 1 : 0;
        count_of(counts, Motion::string) = rows;
    }
    const auto left = place_of(from);
    const auto reached = place_of(to);
    count_of(counts, Motion::reach) = left && reached && std::abs(*left - *reached) > instruments::kCovered ? 1 : 0;
    count_of(counts, Motion::register_) = register_of(from) != register_of(to) ? 1 : 0;
    count_of(counts, Motion::fingers) =
        fingers_changed(from.fingering, to.fingering) >= instruments::kFingersAtOnce ? 1 : 0;
    return counts;
}

}  // namespace hands
