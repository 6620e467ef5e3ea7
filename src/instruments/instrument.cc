#include "instruments/instrument.h"

#include <algorithm>
#include <array>

namespace instruments {

namespace {

constexpr std::array<std::string_view, 4> kDirectionTokens{"none", "press", "draw", "blow"};

}  // namespace

std::string_view direction_token(Direction direction) noexcept {
    return kDirectionTokens[static_cast<std::size_t>(direction)];
}

std::optional<Direction> parse_direction(std::string_view token) noexcept {
    const auto found = std::find(kDirectionTokens.begin(), kDirectionTokens.end(), token);
    if (found == kDirectionTokens.end()) return std::nullopt;
    return static_cast<Direction>(found - kDirectionTokens.begin());
}

int InstrumentNote::grade() const noexcept {
    int easiest = kHardestGrade;
    for (const Way& way : ways) easiest = std::min(easiest, way.grade);
    return easiest;
}

music::NoteSet Instrument::note_set() const {
    music::NoteSet set;
    for (const InstrumentNote& each : notes) set.add(each.written);
    return set;
}

const InstrumentNote* Instrument::note(int midi) const {
    const auto found = std::lower_bound(notes.begin(), notes.end(), midi,
                                        [](const InstrumentNote& each, int wanted) { return each.written < wanted; });
    return found != notes.end() && found->written == midi ? &*found : nullptr;
}

int Instrument::grade(int midi) const {
    const InstrumentNote* found = note(midi);
    return found ? found->grade() : 0;
}

Instrument Instrument::only(const music::NoteSet& kept) const {
    Instrument limited = *this;
    std::erase_if(limited.notes, [&](const InstrumentNote& each) { return !kept.has(each.written); });
    return limited;
}

Instrument Instrument::up_to_grade(int hardest) const {
    Instrument limited = *this;
    for (InstrumentNote& each : limited.notes)
        std::erase_if(each.ways, [&](const Way& way) { return way.grade > hardest; });
    std::erase_if(limited.notes, [](const InstrumentNote& each) { return each.ways.empty(); });
    return limited;
}

Instrument Instrument::with_any_ways() const {
    Instrument copy = *this;
    copy.motion_costs[static_cast<std::size_t>(Motion::second_way)] = 0;
    return copy;
}

bool Instrument::has_levers() const {
    return std::any_of(notes.begin(), notes.end(), [](const InstrumentNote& each) {
        return std::any_of(each.ways.begin(), each.ways.end(),
                           [](const Way& way) { return way.technique.find("lever") != std::string::npos; });
    });
}

bool Instrument::is_bisonoric() const {
    return std::any_of(notes.begin(), notes.end(), [](const InstrumentNote& each) {
        return std::any_of(each.ways.begin(), each.ways.end(),
                           [](const Way& way) { return way.direction != Direction::none; });
    });
}

}  // namespace instruments
