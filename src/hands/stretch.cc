#include "hands/stretch.h"

namespace hands {

using instruments::Motion;

namespace {

std::string place_of(const instruments::Way& way, Motion motion) {
    if (motion == Motion::direction) return std::string(instruments::direction_token(way.direction));
    if (motion == Motion::string) return way.row;
    return "register " + std::to_string(register_of(way));
}

}  // namespace

std::vector<Stretch> stretches_of(const CheapestWay& way, Motion motion) {
    std::vector<Stretch> found;
    Stretch open;
    const auto close = [&] {
        if (open.notes >= kShortestStretch) found.push_back(open);
        open = {};
    };
    for (const Stroke& stroke : way.strokes) {
        const std::string where = stroke.way ? place_of(*stroke.way, motion) : std::string();
        if (where != open.where) close();
        if (where.empty()) continue;
        if (open.notes == 0) open = {where, 0, stroke.note.bar, 0};
        ++open.notes;
        open.last_bar = stroke.note.bar;
    }
    close();
    return found;
}

std::optional<Motion> stretches_by(const instruments::Instrument& instrument) {
    for (const Motion motion : {Motion::direction, Motion::string, Motion::register_})
        if (instrument.motion_costs[static_cast<std::size_t>(motion)] > 0) return motion;
    return std::nullopt;
}

}  // namespace hands
