#include "hands/handling.h"

namespace hands {

using instruments::Motion;

Handling handle(const music::Melody& melody, const tune::TuneFacts& facts, const instruments::Instrument& instrument) {
    const std::vector<LineNote> line = line_of(melody);
    const std::vector<LineNote> top = top_of(line);

    Handling handling;
    handling.near_miss = find_near_miss(line, instrument.note_set());
    const auto key = facts.key ? std::optional(facts.key->headline()) : std::nullopt;
    handling.moves = rank_moves(facts.uses, key, instrument);
    handling.way = find_cheapest_way(top, instrument, instrument.motion_costs);
    for (std::size_t at = 0; at < instruments::kMotions; ++at) {
        const auto motion = static_cast<Motion>(at);
        if (instrument.motion_costs[at] == 0 || motion == Motion::grade) continue;  // grades are told note by note
        handling.motions.push_back({motion, count_of(handling.way.motions, motion),
                                    count_of(handling.way.quick, motion), fewest(motion, top, instrument)});
    }
    handling.hardest = hardest_bar(handling.way);
    if (const auto by = stretches_by(instrument)) handling.stretches = stretches_of(handling.way, *by);
    return handling;
}

}  // namespace hands
